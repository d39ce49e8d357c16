// Marks one score: node mark.mjs IN OUT
import { readFile, writeFile } from 'node:fs/promises';
import { annotate, clear, HandlineError } from '@handline/core';

const [input, output] = process.argv.slice(2);
try {
  const bytes = await readFile(input);
  const marked = annotate(bytes, { file: input, span: '9th', layers: ['depth', 'crossing'] });
  await writeFile(output, marked.output);
  for (const { part, hand, notes, fingered, kept } of marked.report.lines) {
    console.log(
      `part ${part}, ${hand} hand: ${fingered + kept} of ${notes} notes have a digit, ${kept} of them the score's own`,
    );
  }
  for (const { code, message } of marked.report.warnings) console.warn(code, message);
  console.log(marked.report.caution);

  // What was marked can be cleared: the same bytes as before.
  const cleared = clear(marked.output);
  console.log(bytes.equals(cleared.output) ? 'cleared: the same bytes' : 'cleared: other bytes');
} catch (error) {
  if (!(error instanceof HandlineError)) throw error;
  console.error(error.code, error.message, error.place);
  process.exitCode = 1;
}
