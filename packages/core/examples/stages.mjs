// The stages one by one, for one's own fingering or display: node stages.mjs IN
import { readFile } from 'node:fs/promises';
import { alternatives, fingerLine, planMotion, readLines, reasonText } from '@handline/core';

for (const { partId, line, hand, context } of readLines(await readFile(process.argv[2])).lines) {
  const { fingering, doubts } = fingerLine(line, hand, context);
  const plan = planMotion(line, fingering, hand, context);
  const moves = plan.slices.filter(({ reason }) => reason !== undefined);
  console.log(`${partId} ${line.hand}: ${line.slices.length} onsets, ${doubts.length} in doubt`);
  console.log(
    `  the forearm travels ${plan.depthTravel} mm, first because ${reasonText(moves[0].reason, 'en')}`,
  );

  // A passage is a line of its own; here its first eight onsets.
  const passage = { ...line, slices: line.slices.slice(0, 8) };
  for (const { cost, slices } of alternatives(passage, hand, { count: 3 })) {
    console.log(`  ${slices.map(({ struck }) => struck.join('+')).join(' ')}: ${cost} mm equivalents`);
  }
}
