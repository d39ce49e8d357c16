// Lists every note with its finger and what the next best one would cost: node notes.mjs IN
import { readFile } from 'node:fs/promises';
import { annotate } from '@handline/core';

const { report } = annotate(await readFile(process.argv[2]), { nextBest: true });
for (const { part, hand, slices } of report.lines) {
  for (const { measure, exactBeat, keys, notes, nextBest } of slices) {
    for (const { key, finger, digit, staff, voice, line } of notes) {
      const other = nextBest[keys.indexOf(key)];
      console.log(
        `${part} ${hand}, measure ${measure}, beat ${exactBeat.num}/${exactBeat.den}, staff ${staff}, voice ${voice}:`,
        `line ${line}, key ${key}, finger ${finger} (${digit});`,
        other ? `next best ${other.finger}, ${other.cost} mm equivalents more` : 'no other finger',
      );
    }
  }
}
console.log(report.caution);
