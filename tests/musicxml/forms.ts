/** One way to write a text as bytes. */
export interface Form {
  readonly declared: string;
  readonly bom: readonly number[];
  /** Highest code point that it holds for certain. */
  readonly highest: number;
  encode(text: string): Buffer;
}

const swap = (text: string) => Buffer.from(text, 'utf16le').swap16();
export const FORMS: readonly Form[] = [
  { declared: 'UTF-8', bom: [], highest: 0x10ffff, encode: (text) => Buffer.from(text, 'utf8') },
  {
    declared: 'UTF-8',
    bom: [0xef, 0xbb, 0xbf],
    highest: 0x10ffff,
    encode: (text) => Buffer.from(text, 'utf8'),
  },
  {
    declared: 'UTF-16',
    bom: [0xff, 0xfe],
    highest: 0x10ffff,
    encode: (text) => Buffer.from(text, 'utf16le'),
  },
  { declared: 'UTF-16', bom: [], highest: 0x10ffff, encode: (text) => Buffer.from(text, 'utf16le') },
  { declared: 'UTF-16', bom: [0xfe, 0xff], highest: 0x10ffff, encode: swap },
  { declared: 'utf-16', bom: [], highest: 0x10ffff, encode: swap },
  { declared: 'ISO-8859-1', bom: [], highest: 0xff, encode: (text) => Buffer.from(text, 'latin1') },
  { declared: 'US-ASCII', bom: [], highest: 0x7f, encode: (text) => Buffer.from(text, 'latin1') },
  { declared: 'windows-1251', bom: [], highest: 0x7f, encode: (text) => Buffer.from(text, 'latin1') },
];
