/** FNV-1a, 32 bits (Fowler, Noll and Vo), of a text's UTF-16 units: eight hexadecimal digits. */
export function fingerprint(text: string): string {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
}
