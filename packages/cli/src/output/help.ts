export const FORMATS = 'IN is a MusicXML file (.musicxml, .xml, .mxl), or - for standard input.';

/** The same where many scores can be given at once. */
export const INPUTS =
  'IN is a MusicXML file (.musicxml, .xml, .mxl), a folder, a pattern in quotes, a list as @FILE or @-, or - for a ' +
  'score on standard input.';

export const EXIT_CODES =
  `Exit codes: 0 all done; 1 a file was refused or could not be read; 2 the command line or an
option is wrong; 3 a result could not be written; 4 a defect of Handline; 5 cleared, but something was left or lost;
6 review found what --fail-on names; 7 --check: a result would differ; 128 and more: ended by a signal. With several files
the most serious code counts, 7, 6 and then 5 being the least serious; a bad file does not stop the others, and nothing is
written for it.`.replaceAll('\n', ' ');

/** As core has it; `--help` does not wait for core. */
export const CAUTION_TEXT =
  'Fingering and cues are suggestions. Stop at pain, numbness or fatigue. A qualified teacher decides what ' +
  'suits a hand; see a clinician about symptoms.';

export const CAUTION = `Caution: ${CAUTION_TEXT}`;
