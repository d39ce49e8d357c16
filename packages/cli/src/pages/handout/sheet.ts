import { type Drill, type DrillOptions, drill } from '@handline/core';
import type { Result } from '../../outcome.js';
import type { Engraver } from '../engraver.js';
import { type HandoutOptions, handoutPage } from './handout.js';
import { passageFrom } from './passage.js';
import { HANDOUT_WORDS } from './words/words.js';

/**
 * A technique sheet as a page to print, with its contents. The sheet's own marks are shown: marked anew as any other
 * score, its keys would be fingered alike.
 *
 * @param options with which the sheet was made
 */
export function handoutOfSheet(
  sheet: Drill,
  options: DrillOptions,
  page: HandoutOptions,
  engraver: Engraver,
): Result {
  const { language = 'en', layers, digits = 'all', hands, span, wording } = options;
  const whole = digits === 'all' ? sheet : drill({ ...options, digits: 'all' });
  const staff = hands === undefined || hands === 'both' ? undefined : { [hands]: [1] };
  const reading = { ...(span !== undefined && { span }), ...(staff && { staff }) };
  const html = handoutPage(
    {
      printed: passageFrom({ printed: sheet, whole }, reading, engraver, { breaks: 'own' }),
      contents: sheet.contents,
      caution: sheet.report.caution,
      ...(wording && { wording }),
    },
    page,
    { language, words: HANDOUT_WORDS[language], carry: layers?.includes('carry') ?? false },
  );
  return { output: new TextEncoder().encode(html), warnings: [] };
}
