import { expect, it } from 'vitest';
import { attributes, note, onePart } from '../musicxml/read-source.js';
import { mark } from '../musicxml/write-source.js';
import { drawnPages } from './drawn.js';
import { faultsOf } from './faults.js';

const TEXTS = ['out', 'avancer\u2002\u00a0\nencore\u2002\u00a0', 'avancer encore'];
const FIFTHS = [-3, 0, 5];
const MARKS = [
  '<direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>76</per-minute></metronome></direction-type>',
  '<direction-type><words>Allegro</words></direction-type><sound tempo="120"/>',
];

const time = (beats: number): string => `<time><beats>${beats}</beats><beat-type>4</beat-type></time>`;
const typed = (pitch: string): string => note(pitch, 4).replace('</note>', '<type>quarter</type></note>');
const measure = ['C5', 'D5', 'E5', 'F5'].map(typed).join('');

/** verovio draws a tempo mark at a new time signature, left of where it looked for what is in its way. */
it.each(MARKS)('a cue before a new time signature leaves room to its tempo mark: %s', (tempo) => {
  let reaching = 0;
  for (const text of TEXTS) {
    for (const fifths of FIFTHS) {
      for (const beats of [time(4), time(12)]) {
        const signature = `<attributes><key><fifths>${fifths}</fifths></key>${beats}</attributes>`;
        const next = `<direction placement="above">${tempo}</direction>${measure}`;
        const source = onePart([`${attributes()}${measure}`, `${signature}${next}`]);
        const pages = drawnPages(mark(source, { cues: [{ part: 0, note: 3, text, placement: 'above' }] }));
        const { onSigns, near } = faultsOf(pages);
        expect([onSigns, near], `${text} ${fifths} ${beats}`).toEqual([[], []]);
        const left = pages[0]!.boxes.find(({ kind }) => kind === 'tempo')!.left;
        if (pages[0]!.boxes.some(({ ours, right }) => ours && right > left)) reaching++;
      }
    }
  }
  expect(reaching).toBeGreaterThan(2);
});
