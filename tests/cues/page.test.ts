import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createModule from 'verovio/wasm';
import { describe, expect, it } from 'vitest';
import { annotate } from '../../packages/core/src/annotate.js';
import type { Density, Language } from '../../packages/core/src/options.js';

const DEMO = fileURLToPath(new URL('../../fixtures/demo/kelp-street-tunes.musicxml', import.meta.url));

/** A box on the page in verovio's units, y downwards. */
interface Box {
  readonly kind: string;
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Mean advance of a roman italic letter and the heights of most letters above and below the line, in ems: from memory. */
const ADVANCE = 0.4;
const RISE = 0.6;
const FALL = 0.1;
/** Share of cues that may touch something: verovio sets words without knowing our widths exactly. */
const TOUCHING = 0.02;

/** Boxes of the words, digits and dynamics of one SVG page. */
function boxes(svg: string): Box[] {
  const groups = svg.matchAll(
    /class="(dir|fing|dynam)">\s*(?:<text x="(\d+)" y="(\d+)"([^>]*)>([\s\S]*?)<\/text>|<use [^>]*translate\((\d+), (\d+)\))/g,
  );
  return [...groups].map(([, kind, x, y, attributes, content, useX, useY]) => {
    if (content === undefined) {
      const [left, bottom] = [Number(useX), Number(useY)];
      return { kind: kind!, text: 'dynamic', left, right: left + 300, top: bottom - 250, bottom };
    }
    const size = Number(/font-size="([1-9]\d*)px"/.exec(content)?.[1] ?? 0);
    const text = content
      .replaceAll(/<[^>]*>/g, '')
      .trim()
      .replaceAll(/\s+/g, ' ');
    const width = text.length * ADVANCE * size;
    const left = Number(x) - (attributes!.includes('middle') ? width / 2 : 0);
    const [top, bottom] = [Number(y) - RISE * size, Number(y) + FALL * size];
    return { kind: kind!, text, left, right: left + width, top, bottom };
  });
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

const module = await createModule();
enableLog(LOG_OFF, module);
const toolkit = new VerovioToolkit(module);
toolkit.setOptions({ pageWidth: 2100, pageHeight: 2970, scale: 100, footer: 'none' });

function pages(text: string): string[] {
  toolkit.loadData(text);
  return Array.from({ length: toolkit.getPageCount() }, (_, nth) => toolkit.renderToSVG(nth + 1));
}

describe('the marked demo on the page, drawn by verovio', () => {
  it.each<[Density, Language]>([
    ['essential', 'en'],
    ['essential', 'de'],
    ['demanding', 'fr'],
  ])('sets no cue on a digit, a dynamic or another cue: %s, %s', (density, language) => {
    const { output, report } = annotate(readFileSync(DEMO, 'utf8'), { density, language });
    const drawn = pages(output).map(boxes);
    const cues = new Set(report.lines.flatMap((line) => line.slices.map((slice) => slice.cue)));
    const count = drawn.flat().filter((box) => cues.has(box.text)).length;
    console.log(`${density}, ${language}: ${count} cues on ${drawn.length} pages`);
    expect(count).toBe(report.lines.reduce((sum, line) => sum + line.cues, 0));
    const hits = drawn.flatMap((page) =>
      page.flatMap((cue, at) =>
        cues.has(cue.text)
          ? page.flatMap((other, nth) =>
              nth !== at && overlap(cue, other) ? [`${cue.text} on ${other.text}`] : [],
            )
          : [],
      ),
    );
    console.log(`touching: ${hits.join('; ') || 'none'}`);
    expect(hits.length).toBeLessThanOrEqual(TOUCHING * count);
  });
});
