import { includesHand } from '../hands/line.js';
import type { Marks } from '../musicxml/marks/edit.js';
import type { ReadResult } from '../musicxml/read/score.js';
import type { LineReport } from '../options/report.js';
import type { Warning } from '../score/errors.js';
import { pageStarts } from './cues/pages.js';
import { MarkList } from './marks/choose-marks.js';
import { analyse } from './plan.js';
import type { Progress } from './progress.js';
import { lineReport } from './report/report.js';
import { selectMeasures } from './selection.js';
import type { Settings } from './settings.js';
import { sharedLines } from './share-hands.js';
import { emptySelection, emptyStaves, fingeringWarnings } from './warnings.js';

/** What is to be printed and said of a score. */
export interface WorkedOut {
  readonly marks: Marks;
  readonly reports: readonly LineReport[];
  readonly warnings: readonly Warning[];
}

/**
 * Fingers a score and plans its motion. Of the slices and of all that was found out about them nothing is left in memory
 * but the report, which a long score needs for its new text.
 *
 * @throws HandlineError OPTION where a part or staff that was asked for does not exist
 */
export function workOut(read: ReadResult, settings: Settings, tell: (progress: Progress) => void): WorkedOut {
  const { score } = read;
  const built = sharedLines(score, settings);
  const select = (part: number) => selectMeasures(score.parts[part]!.measures, settings);
  const marks = new MarkList(score, settings, select);
  const reports: LineReport[] = [];
  const doubts: Warning[] = [];
  for (const analysis of analyse(score, built.lines, settings, { ...built, pages: pageStarts(read) }, tell)) {
    const { hand, part: index } = analysis.line;
    const part = score.parts[index]!;
    const digits = marks.add(analysis);
    doubts.push(...fingeringWarnings(part, analysis, settings));
    if (includesHand(settings.hands, hand))
      reports.push(lineReport(part, analysis, digits, settings, select(index)));
  }
  const warnings = [
    ...built.warnings,
    ...emptyStaves(read, built.written, settings),
    ...doubts,
    ...emptySelection(built.lines, settings, select, built.warnings),
  ];
  return { marks: marks.marks(), reports, warnings };
}
