const REFERENCES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** A text for the content or an attribute of an HTML page; signs that a page cannot hold are replaced. */
export function escapeHtml(text: string): string {
  return text
    .replaceAll(/(?![\t\n\r])\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu, '\ufffd')
    .replaceAll(/[&<>"']/g, (sign) => REFERENCES[sign]!);
}
