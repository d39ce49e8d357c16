/** What a name begins with, and what it may hold besides (XML 1.0, productions 4 and 4a), for expressions with the flag u. */
const START =
  ':A-Z_a-z\\u{c0}-\\u{d6}\\u{d8}-\\u{f6}\\u{f8}-\\u{2ff}\\u{370}-\\u{37d}\\u{37f}-\\u{1fff}\\u{200c}\\u{200d}' +
  '\\u{2070}-\\u{218f}\\u{2c00}-\\u{2fef}\\u{3001}-\\u{d7ff}\\u{f900}-\\u{fdcf}\\u{fdf0}-\\u{fffd}\\u{10000}-\\u{effff}';
const MORE = `${START}\\-.0-9\\u{b7}\\u{300}-\\u{36f}\\u{203f}\\u{2040}`;

/** The source of an expression for an XML name, which needs the flag u. */
export const NAME_SOURCE = `[${START}][${MORE}]*`;
