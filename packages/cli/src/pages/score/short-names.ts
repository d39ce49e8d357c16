/** Letters of a part's name beside a system: more leave the notes no room, and millions take the engraver minutes. */
const MOST_LETTERS = 40;

const NAME = new RegExp(
  `(<(?:part-name|part-abbreviation|display-text)\\b[^>]*>)([^<]{${MOST_LETTERS + 1},})(?=</)`,
  'g',
);

/** A score in which the names of parts are no longer than a page has room for. */
export function withShortNames(text: string): string {
  return text.replaceAll(NAME, (_, tag: string, name: string) => {
    // No half of a reference stays.
    const begun = name.slice(0, MOST_LETTERS - 1).replace(/&[^;]*$/, '');
    return `${tag}${begun}…`;
  });
}
