import type { Engraver } from '../../engraver.js';
import { Shown } from './shown.js';

const NOTE = (step: string, more = '', staff = 1) =>
  `<note><pitch><step>${step}</step><octave>${5 - staff}</octave></pitch><duration>1</duration><voice>${staff}</voice><type>eighth</type><staff>${staff}</staff>${more}</note>`;
const DIGIT = (finger: number, more = '') =>
  `<notations>${more}<technical><fingering>${finger}</fingering></technical></notations>`;
const MEASURE = `${NOTE('C', `<beam number="1">begin</beam>${DIGIT(1, '<slur type="start" number="1"/>')}`)}${NOTE('E', `<beam number="1">end</beam>${DIGIT(3, '<slur type="stop" number="1"/>')}`)}<backup><duration>2</duration></backup>${NOTE('G', DIGIT(1), 2)}<note><rest/><duration>1</duration><voice>2</voice><type>eighth</type><staff>2</staff></note>`;
const SAMPLE = `<score-partwise><part-list><score-part id="P1"><part-name/></score-part></part-list><part id="P1"><measure number="1"><attributes><divisions>2</divisions><key><fifths>1</fifths></key><time><beats>1</beats><beat-type>4</beat-type></time><staves>2</staves><clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>F</sign><line>4</line></clef></attributes><direction placement="above"><direction-type><words font-style="italic">in</words></direction-type><staff>1</staff></direction>${MEASURE}</measure><measure number="2">${MEASURE}</measure></part></score-partwise>`;

/**
 * The engraver after it has drawn something: what it does for the first time takes it seconds, and these pass while the
 * user looks for a file or the score is fingered.
 */
export function warmed(engraver: Engraver): Engraver {
  const sample = new Shown(new TextEncoder().encode(SAMPLE), { language: 'en', layers: ['depth'] });
  sample.begun(engraver, 0);
  sample.keyboard({ line: 0, slice: 0 });
  return engraver;
}
