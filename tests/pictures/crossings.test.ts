import { depthRibbon, handModel, planMotion } from '@handline/core';
import { expect, it } from 'vitest';
import { melody } from '../motion/lines.js';

const HAND = handModel();

it('draws no arc through the digits of another, however near their notes stand', () => {
  const down = melody('right', [79, 78, 76, 74, 72, 71, 69, 67, 65, 64, 62, 60], '543213213213');
  const over = planMotion(down.line, down.fingers, HAND);
  let pairs = 0;
  for (let apart = 1; apart <= 6; apart += 0.25) {
    const at = down.line.slices.map(({ index }) => ({ slice: index, x: 30 + apart * index }));
    const svg = depthRibbon(down.line, over, at, { width: 200 });
    const tags = [...svg.matchAll(/<(path|text) [^>]*class="over"[^>]*>/g)].map(([tag]) => tag);
    tags.forEach((tag, nth) => {
      const next = tags[nth + 1];
      if (!tag.startsWith('<text') || !next || !tags[nth + 2]?.startsWith('<text')) return;
      pairs += 1;
      // Three letters of 1.3 mm stand there.
      const end = Number(/ x="([\d.]+)"/.exec(tag)![1]) + 3.9;
      expect(Number(/ d="M([\d.]+) /.exec(next)![1])).toBeGreaterThanOrEqual(end - 0.01);
    });
  }
  expect(pairs).toBeGreaterThan(20);
});
