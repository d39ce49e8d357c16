import { expect, it } from 'vitest';
import { movementTables } from '#core/fingering/cost/tables/movement/tables.js';
import { decodeTable, fingerprintOf, type Table } from '#core/fingering/cost/tables/table.js';
import { usageTables } from '#core/fingering/cost/tables/usage/tables.js';
import { TERMS } from '#core/fingering/cost/terms/terms.js';

const TABLES = [...usageTables, ...movementTables].map((table): [string, Table] => [table.term, table]);
const blocksOf = ({ term }: Table) => TERMS.find(({ name }) => name === term)!.blocks;
const signed = (table: Omit<Table, 'fingerprint'>): Table => ({
  ...table,
  fingerprint: fingerprintOf(table),
});

/** Pairs of blocks of a table that have equally many values, and the table with their values swapped. */
function swaps(table: Table): Table[] {
  const size = (nth: number) => Object.values(table.blocks[nth]!.dimensions).reduce((a, b) => a * b, 1);
  return table.blocks.flatMap((one, a) =>
    table.blocks.slice(a + 1).flatMap((other, rest): Table[] => {
      const b = a + 1 + rest;
      if (size(a) !== size(b)) return [];
      const blocks = table.blocks.map((own, nth) =>
        nth === a ? { ...own, values: other.values } : nth === b ? { ...own, values: one.values } : own,
      );
      return [{ ...table, blocks }];
    }),
  );
}

it('a swap of two blocks of equal size is found on loading', () => {
  const all = TABLES.flatMap(([, table]) => swaps(table));
  expect(all.length).toBeGreaterThan(10);
  for (const swapped of all)
    expect(() => decodeTable(swapped, blocksOf(swapped))).toThrow(/was changed after it was fitted/);
});

it.each(TABLES)('%s: one other value, name or dimension is found on loading', (_, table) => {
  const [first, ...rest] = table.blocks;
  const change = (block: Partial<typeof first>) => ({ ...table, blocks: [{ ...first!, ...block }, ...rest] });
  expect(decodeTable(table, blocksOf(table))).toHaveLength(
    blocksOf(table).reduce((sum, { size }) => sum + size, 0),
  );
  for (const other of [
    change({ values: `1${first!.values.trim()}` }),
    change({ support: `1${first!.support.trim()}` }),
    { ...table, unit: 2 * table.unit },
  ])
    expect(() => decodeTable(other, blocksOf(table))).toThrow(/was changed after it was fitted/);
  for (const other of [change({ name: 'another' }), change({ dimensions: { another: 3 } })])
    expect(() => decodeTable(signed(other), blocksOf(table))).toThrow(/is for other blocks/);
  const longer = signed(change({ values: `${first!.values.trim()} 0` }));
  expect(() => decodeTable(longer, blocksOf(table))).toThrow(/weights, not/);
});
