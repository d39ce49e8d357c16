/** Keys by MIDI number, told anew here so that the judges share nothing with what they judge. */

const BLACK = new Set([1, 3, 6, 8, 10]);

export function isBlack(key: number): boolean {
  return BLACK.has(key % 12);
}

/** The key mirrored about D4, 62: of the same colour, on the other side. */
export function mirrorKey(key: number): number {
  return 124 - key;
}

const NAMES = ['C', 'C♯', 'D', 'D♯', 'E', 'F', 'F♯', 'G', 'G♯', 'A', 'A♯', 'B'] as const;

/** `C4` for middle C. */
export function keyName(key: number): string {
  return `${NAMES[key % 12]}${Math.floor(key / 12) - 1}`;
}
