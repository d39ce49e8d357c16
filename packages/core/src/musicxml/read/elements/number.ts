const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)$/;

/** A decimal as MusicXML writes it, or undefined where the text is none (`NaN`, `1e9`, `0x10`, empty, an entity). */
export function decimal(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const trimmed = text.trim();
  if (trimmed.length > 32 || !DECIMAL.test(trimmed)) return undefined;
  return Number(trimmed);
}

/** An integer, or undefined where the text is none. */
export function integer(text: string | undefined): number | undefined {
  const value = decimal(text);
  return value !== undefined && Number.isSafeInteger(value) ? value : undefined;
}
