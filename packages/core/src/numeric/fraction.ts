/** An exact rational number in lowest terms with `den > 0`; times in a score are fractions of a quarter note. */
export interface Fraction {
  /** Numerator, a safe integer. */
  readonly num: number;
  /** Denominator, a safe integer above 0. */
  readonly den: number;
}

export const ZERO: Fraction = { num: 0, den: 1 };

/** Greatest common divisor of two integers, not negative. */
export function gcd(a: number, b: number): number {
  let x = Math.abs(a);
  let y = Math.abs(b);
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/**
 * @param num integer numerator
 * @param den integer denominator, not zero
 * @throws RangeError where `num` or `den` is not a safe integer, or `den` is zero
 */
export function fraction(num: number, den = 1): Fraction {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || den === 0) {
    throw new RangeError(`not an exact fraction: ${num}/${den}`);
  }
  const divisor = (gcd(num, den) || 1) * Math.sign(den);
  return { num: num / divisor + 0, den: den / divisor };
}

/** @throws RangeError where the sum has no exact form in safe integers */
export function add(a: Fraction, b: Fraction): Fraction {
  if (a.den === b.den) return fraction(a.num + b.num, a.den);
  const common = gcd(a.den, b.den);
  return fraction(a.num * (b.den / common) + b.num * (a.den / common), (a.den / common) * b.den);
}

export function subtract(a: Fraction, b: Fraction): Fraction {
  return add(a, { num: -b.num, den: b.den });
}

/** Negative where `a < b`, zero where equal, positive where `a > b`; exact for every pair. */
export function compare(a: Fraction, b: Fraction): number {
  if (a.den === b.den) return a.num - b.num;
  const left = a.num * b.den;
  const right = b.num * a.den;
  if (Number.isSafeInteger(left) && Number.isSafeInteger(right)) return left - right;
  const difference = BigInt(a.num) * BigInt(b.den) - BigInt(b.num) * BigInt(a.den);
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

export function equal(a: Fraction, b: Fraction): boolean {
  return a.num === b.num && a.den === b.den;
}

export function toNumber(a: Fraction): number {
  return a.num / a.den;
}
