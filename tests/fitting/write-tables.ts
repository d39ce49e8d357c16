import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { grainOf } from '#core/fingering/cost/tables/grain.js';
import { OFFSETS, TERMS } from '#core/fingering/cost/terms/terms.js';

const FOLDER = fileURLToPath(new URL('../../packages/core/src/fingering/cost/tables/', import.meta.url));
const LINE = 100;

/** `3 -12 *40 7`: whole grains, `*n` for n zeros; in lines of about 100 characters. */
function encode(grains: readonly number[]): string {
  const tokens: string[] = [];
  for (let at = 0; at < grains.length; ) {
    let end = at;
    while (end < grains.length && grains[end] === 0) end++;
    if (end - at > 1) {
      tokens.push(`*${end - at}`);
      at = end;
    } else tokens.push(String(grains[at++]));
  }
  const lines: string[] = [''];
  for (const token of tokens) {
    if (lines.at(-1)!.length + token.length > LINE) lines.push('');
    lines.push(`${lines.pop()!}${lines.at(-1) === '' ? '' : ' '}${token}`.trimStart());
  }
  return lines.join('\n');
}

/** Writes one file of numbers a term. */
export function writeTables(weights: Float64Array): void {
  let used = 0;
  TERMS.forEach(({ name, size }, nth) => {
    const own = [...weights.subarray(OFFSETS[nth]!, OFFSETS[nth]! + size)].map(
      (mm) => Math.round(mm / grainOf(name)) || 0,
    );
    used += own.filter((grain) => grain !== 0).length;
    const id = name.replace(/\W+/g, '-');
    const head = `/** Weights of \`${name}\` in grains, fitted by tests/fitting; not to be edited by hand. */`;
    writeFileSync(`${FOLDER}${id}.ts`, `${head}\nexport const grains = \`\n${encode(own)}\n\`;\n`);
  });
  console.log(`${used} weights of ${weights.length} are not zero`);
}
