/** Control characters and line separators: names and texts from files must not break the line or steer a terminal. */
const UNSAFE = /[\p{Cc}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/gu;

/** `text` on a single line: line breaks become spaces, other control characters their code, as in `\u001b`. */
export function oneLine(text: string): string {
  return text
    .replace(/\s*[\r\n\u2028\u2029]+\s*/g, ' ')
    .replace(UNSAFE, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`)
    .trim();
}
