import { readFileSync } from 'node:fs';
import { review } from '#core/index.js';
import type { CauseName } from '#core/review/causes/cause.js';
import { LEVELS, type Level } from '#core/review/findings/thresholds.js';
import { editions } from '../scores.js';
import { type Figures, record } from './figures.js';

// HANDLINE_LONG=1 HANDLINE_RECORD=1 npx tsx tests/docs/review-figures.ts: what `review` finds in all shared scores, as
// packages/core/docs/review.md tells of it. With a number as argument it lists so many of the gravest findings to be read
// one by one. Takes about half a minute.

type Counts = Record<Level, number>;

interface Told {
  readonly score: string;
  readonly level: Level;
  readonly mm: number;
  readonly text: string;
}

const SHARES = [25, 50, 75, 90, 95, 99] as const;
const files = editions();
const levels: Counts = { 'worth changing': 0, 'worth a look': 0, remark: 0 };
const causes = new Map<CauseName, number>();
const extra: number[] = [];
const told: Told[] = [];
let [measures, digits] = [0, 0];

for (const path of files) {
  const { passages, findings } = review(readFileSync(path));
  const played = new Set<string>();
  for (const { part, hand, digits: own, notes, mm, fingering } of passages) {
    if (own === 0) continue;
    digits += own;
    extra.push(mm.more / notes);
    for (const { measure } of fingering) played.add(`${part} ${hand} ${measure}`);
  }
  measures += played.size;
  for (const { level, cause, mm, measure, beat, hand, text, remedy } of findings) {
    levels[level]++;
    causes.set(cause, (causes.get(cause) ?? 0) + 1);
    const place = `m. ${measure}, beat ${beat}, ${hand} hand, ${cause}`;
    told.push({
      score: path.split('/').at(-1)!,
      level,
      mm,
      text: `${place}: ${text}. ${remedy?.text ?? ''}`,
    });
  }
}

const perHundred = (count: number) => Number(((100 * count) / measures).toFixed(1));
extra.sort((a, b) => a - b);
const figures: Figures['review'] = {
  scores: files.length,
  digits,
  passages: extra.length,
  measures,
  levels: Object.fromEntries(LEVELS.map((level) => [level, perHundred(levels[level])])) as Counts,
  causes: Object.fromEntries(
    [...causes].sort((a, b) => b[1] - a[1]).map(([cause, count]) => [cause, perHundred(count)]),
  ),
  extra: Object.fromEntries(
    SHARES.map((share) => [share, Number(extra[Math.floor((share / 100) * (extra.length - 1))]!.toFixed(1))]),
  ),
};
console.log(JSON.stringify(figures, null, 2));
told.sort((a, b) => LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level) || b.mm - a.mm);
for (const { score, level, mm, text } of told.slice(0, Number(process.argv[2] ?? 0)))
  console.log(`${score}, ${level}, ${mm.toFixed(0)} mm: ${text}`);
record((all) => ({ ...all, review: figures }));
