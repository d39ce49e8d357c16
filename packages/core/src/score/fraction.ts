/** An exact rational number in lowest terms with `den > 0`; times in a score are fractions of a quarter note. */
export interface Fraction {
  readonly num: number;
  readonly den: number;
}

export const ZERO: Fraction = { num: 0, den: 1 };

function gcd(a: number, b: number): number {
  let [x, y] = [Math.abs(a), Math.abs(b)];
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/**
 * @param num integer numerator
 * @param den integer denominator, not zero
 * @throws RangeError where a part is no safe integer or `den` is zero
 */
export function fraction(num: number, den = 1): Fraction {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || den === 0) {
    throw new RangeError(`not an exact fraction: ${num}/${den}`);
  }
  const divisor = (gcd(num, den) || 1) * Math.sign(den);
  return { num: num / divisor + 0, den: den / divisor };
}

export function add(a: Fraction, b: Fraction): Fraction {
  if (a.den === b.den) return fraction(a.num + b.num, a.den);
  return fraction(a.num * b.den + b.num * a.den, a.den * b.den);
}

export function subtract(a: Fraction, b: Fraction): Fraction {
  return add(a, { num: -b.num, den: b.den });
}

/** Negative where `a < b`, zero where equal, positive where `a > b`. */
export function compare(a: Fraction, b: Fraction): number {
  return a.num * b.den - b.num * a.den;
}

export function toNumber(a: Fraction): number {
  return a.num / a.den;
}
