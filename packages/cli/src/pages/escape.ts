const REFERENCES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** A text whose lines do not break before a sign that French sets apart, nor behind its opening quotation mark. */
export function unbroken(text: string): string {
  return text.replaceAll(/ (?=[:;!?»])|(?<=«) /gu, '\u00a0');
}

/** A text for the content or an attribute of an HTML page; signs that a page cannot hold are replaced. */
export function escapeHtml(text: string): string {
  return unbroken(text)
    .replaceAll(/(?![\t\n\r])\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu, '\ufffd')
    .replaceAll(/[&<>"']/g, (sign) => REFERENCES[sign]!);
}
