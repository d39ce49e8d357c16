/** An uncompressed entry of an archive, as APPNOTE.TXT of the ZIP format (4.3.7, 4.3.12) has it. */
export interface Entry {
  readonly name: string;
  readonly data: string | Uint8Array;
  readonly flags?: number;
  readonly date?: number;
  readonly extra?: string;
  readonly comment?: string;
  /** Checksum and sizes behind the data instead of before it. */
  readonly isStreamed?: boolean;
  readonly version?: number;
  /** Other numbers of the central record, of 16 bits, by offset. */
  readonly stated?: Readonly<Record<number, number>>;
}

export interface Around {
  /** Order of the central directory, by index. */
  readonly order?: readonly number[];
  readonly before?: string;
  /** Between the directory and the record that ends the archive. */
  readonly between?: string;
  readonly comment?: string;
  readonly behind?: string;
  /** Other numbers of the record that ends it, of 16 bits, by offset. */
  readonly stated?: Readonly<Record<number, number>>;
}

const u16 = (value: number) => [value & 0xff, (value >>> 8) & 0xff];
const u32 = (value: number) => [...u16(value), ...u16(value >>> 16)];
const raw = (text = '') => Buffer.from(text, 'latin1');

/** CRC-32 (ISO 3309) bit by bit. */
export function checksum(data: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of data)
    for (let bit = 0; bit < 8; bit++) crc = ((crc ^ (byte >> bit)) & 1 ? 0xedb88320 : 0) ^ (crc >>> 1);
  return ~crc >>> 0;
}

function set(bytes: Buffer, numbers: Readonly<Record<number, number>> = {}): Buffer {
  for (const [offset, value] of Object.entries(numbers)) bytes.writeUInt16LE(value, Number(offset));
  return bytes;
}

/** Local header and data of an entry, and its central record without an offset. */
export function written(entry: Entry): { local: Buffer; record: Buffer } {
  const { flags = 0, date = 0x5821, isStreamed = false, version = 20 } = entry;
  const data = typeof entry.data === 'string' ? Buffer.from(entry.data) : Buffer.from(entry.data);
  const [name, extra, comment] = [entry.name, entry.extra, entry.comment].map(raw) as [
    Buffer,
    Buffer,
    Buffer,
  ];
  const sizes = [...u32(checksum(data)), ...u32(data.length), ...u32(data.length)];
  const facts = [...u16(version), ...u16(isStreamed ? flags | 8 : flags), ...u16(0), ...u16(0), ...u16(date)];
  const lengths = [...u16(name.length), ...u16(extra.length)];
  const local = Buffer.concat([
    Buffer.from([
      0x50,
      0x4b,
      3,
      4,
      ...facts,
      ...(isStreamed ? u32(0).concat(u32(0), u32(0)) : sizes),
      ...lengths,
    ]),
    name,
    extra,
    data,
    Buffer.from(isStreamed ? [0x50, 0x4b, 7, 8, ...sizes] : []),
  ]);
  const record = Buffer.concat([
    Buffer.from([0x50, 0x4b, 1, 2, ...u16(version), ...facts, ...sizes, ...lengths, ...u16(comment.length)]),
    Buffer.alloc(12),
    name,
    extra,
    comment,
  ]);
  return { local, record: set(record, entry.stated) };
}

/** An archive of uncompressed entries, written here so that it can be compared byte for byte. */
export function zip(entries: readonly Entry[], around: Around = {}): Uint8Array {
  const { order = entries.map((_, at) => at) } = around;
  const pieces = entries.map(written);
  let at = raw(around.before).length;
  pieces.forEach(({ local, record }, index) => {
    if (entries[index]?.stated?.[42] === undefined) record.writeUInt32LE(at, 42);
    at += local.length;
  });
  const central = Buffer.concat(order.map((index) => pieces[index]!.record));
  const count = u16(order.length);
  const comment = raw(around.comment);
  const end = [
    0x50,
    0x4b,
    5,
    6,
    0,
    0,
    0,
    0,
    ...count,
    ...count,
    ...u32(central.length),
    ...u32(at),
    ...u16(comment.length),
  ];
  const all = Buffer.concat([
    raw(around.before),
    ...pieces.map(({ local }) => local),
    central,
    raw(around.between),
    set(Buffer.from(end), around.stated),
    comment,
    raw(around.behind),
  ]);
  return new Uint8Array(all);
}

export const SCORE = '<score-partwise/>';

/** `META-INF/container.xml` that names files, or holds what is given. */
export function container(...paths: readonly string[]): Entry {
  const files = paths.map((path) => (path.startsWith('<') ? path : `<rootfile full-path="${path}"/>`));
  return {
    name: 'META-INF/container.xml',
    data: `<container><rootfiles>${files.join('')}</rootfiles></container>`,
  };
}
