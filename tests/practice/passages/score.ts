import { parseArgs } from 'node:util';
import { scoresToCount, tellCounts, usual } from './counting/count-scores.js';
import { judgeAll, type Verdict } from './judge.js';
import { show } from './played.js';
import { passagesOf, TEXTURES } from './textures/all.js';

/** Prints the share of passages that pass, by texture; run by `npx tsx tests/practice/passages/score.ts --help`. */
const { values } = parseArgs({
  options: {
    texture: { type: 'string', multiple: true },
    show: { type: 'string', multiple: true },
    most: { type: 'string', default: '10' },
    every: { type: 'string', default: '1' },
    passage: { type: 'string' },
    counts: { type: 'boolean' },
    help: { type: 'boolean' },
  },
});

const HELP = `score.ts [--texture NAME]... [--show NAME [--most 10]] [--passage 'NAME 17'] [--every N] [--counts]
  --texture  only textures whose name contains this
  --show     print failing passages of a texture: keys, our digits, rules broken
  --passage  print one passage, whether it fails or not
  --every    judge every N-th passage of a texture only
  --counts   breaches per 1,000 occasions over the shared scores, or over our own tunes, instead`;

function told({ passage, played, breaches }: Verdict): string {
  const { name, what, span, tempo, line } = passage;
  const rate = line.slices.length > 1 ? (1 / line.slices[1]!.seconds).toFixed(1) : '-';
  const head = `${name}: ${what}, ${line.hand} hand, ${span}, ${tempo} a minute, ${rate} notes a second`;
  const keys = `  ${show(played)}`;
  const rules = [...new Set(breaches.map(({ rule }) => rule))].slice(0, 5).map((rule) => {
    const at = breaches.filter((breach) => breach.rule === rule).map((breach) => breach.at);
    const near = show(played, Math.max(0, at[0]! - 1), at[0]! + 2);
    return `  - ${rule} (${at.length}x, at ${at.slice(0, 8).join(' ')}: ${near})`;
  });
  return [head, keys, ...rules].join('\n');
}

function main(): void {
  if (values.help) {
    console.log(HELP);
    return;
  }
  if (values.counts) {
    console.log(tellCounts(scoresToCount()));
    return;
  }
  const wanted = [...(values.texture ?? []), ...(values.show ?? [])];
  if (values.passage) wanted.push(values.passage.replace(/ \d+$/, ''));
  const textures = TEXTURES.filter(
    ({ name }) => wanted.length === 0 || wanted.some((part) => name.includes(part)),
  );
  const every = Number(values.every);
  const all: Verdict[] = [];
  for (const texture of textures) {
    const passages = passagesOf(texture).filter(({ name }, nth) =>
      values.passage ? name === values.passage : nth % every === 0,
    );
    const start = performance.now();
    const verdicts = judgeAll(passages, usual);
    const passed = verdicts.filter(({ breaches }) => breaches.length === 0).length;
    const share = ((100 * passed) / verdicts.length).toFixed(0).padStart(4);
    const seconds = ((performance.now() - start) / 1000).toFixed(1);
    console.log(
      `${share} %  ${texture.name.padEnd(24)} ${passed} of ${verdicts.length}${texture.blind === undefined ? '' : `, blind judges ${texture.blind} %`}, ${seconds} s`,
    );
    if (values.show?.some((part) => texture.name.includes(part)) || values.passage) {
      const failing = verdicts.filter(({ breaches }) => breaches.length > 0 || values.passage);
      for (const verdict of failing.slice(0, Number(values.most))) console.log(told(verdict));
      const rules = new Map<string, number>();
      for (const { breaches } of failing) {
        for (const rule of new Set(breaches.map((breach) => breach.rule.replaceAll(/by [\d -]+|\d/g, '#'))))
          rules.set(rule, (rules.get(rule) ?? 0) + 1);
      }
      for (const [rule, count] of [...rules].sort((a, b) => b[1] - a[1])) console.log(`  ${count}  ${rule}`);
    }
    all.push(...verdicts);
  }
  const passed = all.filter(({ breaches }) => breaches.length === 0).length;
  console.log(`${((100 * passed) / all.length).toFixed(1)} %  of ${all.length} passages`);
}

main();
