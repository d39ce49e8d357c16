const PREDEFINED: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

/** A text with its predefined and numeric references resolved. */
export function resolve(text: string): string {
  return text.replace(/&(?:#(\d+)|#x([\da-fA-F]+)|(amp|lt|gt|quot|apos));/g, (all, decimal, hex, name) => {
    if (name !== undefined) return PREDEFINED[name] ?? all;
    const code = decimal === undefined ? Number.parseInt(hex, 16) : Number.parseInt(decimal, 10);
    return code <= 0x10ffff ? String.fromCodePoint(code) : all;
  });
}

/** A text for xmlbuilder2, which escapes all that it must but leaves what looks like a reference, such as `&uml;`, as it is. */
export function literal(text: string): string {
  return text.replaceAll('&', '&amp;');
}
