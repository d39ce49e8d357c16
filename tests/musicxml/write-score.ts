/** Small scores for the writer's tests, one note a line or nested. */
export function score(measure: string, { version = '4.0', head = '', encoding = 'UTF-8' } = {}): string {
  return [
    `<?xml version="1.0" encoding="${encoding}"?>`,
    `<score-partwise version="${version}">`,
    ...(head === '' ? [] : [head]),
    '  <part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list>',
    '  <part id="P1">',
    '    <measure number="1">',
    '      <attributes><divisions>2</divisions><staves>2</staves></attributes>',
    measure,
    '    </measure>',
    '  </part>',
    '</score-partwise>',
    '',
  ].join('\n');
}

interface NoteParts {
  readonly before?: string;
  readonly octave?: number;
  readonly staff?: number;
  readonly voice?: string;
  readonly after?: string;
}

/** A quarter note c on a line of its own. */
export function note({
  before = '',
  octave = 4,
  staff = 1,
  voice = '1',
  after = '',
}: NoteParts = {}): string {
  const pitch = `<pitch><step>C</step><octave>${octave}</octave></pitch>`;
  const duration = before.includes('<grace/>') ? '' : '<duration>2</duration>';
  const place = `<voice>${voice}</voice><type>quarter</type><staff>${staff}</staff>`;
  return `      <note>${before}${pitch}${duration}${place}${after}</note>`;
}

/** The same note with every child on a line of its own. */
export function nested(after: readonly string[] = []): string {
  const children = [
    '<pitch>',
    '  <step>C</step>',
    '  <octave>4</octave>',
    '</pitch>',
    '<duration>2</duration>',
    '<voice>1</voice>',
    '<staff>1</staff>',
    ...after,
  ];
  return ['<note>', ...children.map((line) => `  ${line}`), '</note>']
    .map((line) => `      ${line}`)
    .join('\n');
}
