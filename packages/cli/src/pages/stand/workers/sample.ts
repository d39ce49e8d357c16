/** White keys from the one before, one eighth after the other: steps, turns, thirds and leaps, so that hands pass and shift. */
const WAY = [
  1, 1, 1, 1, 1, -1, -1, 2, 2, -3, 1, 4, -1, -1, -1, -1, -2, 1, -2, 5, -7, 2, 2, 3, -1, -2, -2, 1, 1, -4,
];
/** Keys that sound together, as white keys above the lowest; after the last the first again. */
const CHORDS = [[0], [0], [0, 2], [0], [0, 2, 4], [0], [0], [0, 5]];
const STEPS = 'CDEFGAB';
const EIGHTHS = 6;

/** A piece of both hands for the workers to practise on, before there is a score; with a digit on every note if asked. */
export function sampleScore(measures: number, withDigits = false): Uint8Array<ArrayBuffer> {
  const hands = [new Hand(1, 35, withDigits), new Hand(2, 24, withDigits)];
  const content = Array.from({ length: measures }, (_, nth) => {
    const [upper, lower] = hands.map((hand) => hand.measure());
    return `<measure number="${nth + 1}">${nth === 0 ? ATTRIBUTES : ''}${upper}<backup><duration>${EIGHTHS}</duration></backup>${lower}</measure>`;
  });
  return new TextEncoder().encode(
    `<score-partwise><part-list><score-part id="P1"><part-name/></score-part></part-list><part id="P1">${content.join('')}</part></score-partwise>`,
  );
}

const ATTRIBUTES =
  '<attributes><divisions>2</divisions><key><fifths>2</fifths></key><time><beats>3</beats><beat-type>4</beat-type></time><staves>2</staves><clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>F</sign><line>4</line></clef></attributes>';
/** Black keys of the signature. */
const SHARP = 'FC';

/** One hand's way, from a white key counted from the lowest C. */
class Hand {
  readonly #staff: number;
  readonly #withDigits: boolean;
  #key: number;
  #at: number;

  constructor(staff: number, key: number, withDigits: boolean) {
    this.#staff = staff;
    this.#withDigits = withDigits;
    this.#key = key;
    this.#at = 7 * staff;
  }

  measure(): string {
    return Array.from({ length: EIGHTHS }, (_, nth) => this.#eighth(nth)).join('');
  }

  #eighth(nth: number): string {
    this.#key += WAY[this.#at % WAY.length]!;
    const chord = CHORDS[this.#at % CHORDS.length]!;
    this.#at += 1;
    const end = nth % 2 === 0 ? 'begin' : 'end';
    return chord.map((above) => this.#note(this.#key + above, above, end)).join('');
  }

  #note(key: number, above: number, beam: string): string {
    const isChord = above > 0;
    const finger = above > 0 ? Math.min(5, above) : (key % 5) + 1;
    const digit = this.#withDigits
      ? `<notations><technical><fingering>${finger}</fingering></technical></notations>`
      : '';
    const step = STEPS[key % 7]!;
    const alter = SHARP.includes(step) ? '<alter>1</alter>' : '';
    return `<note>${isChord ? '<chord/>' : ''}<pitch><step>${step}</step>${alter}<octave>${Math.floor(key / 7)}</octave></pitch><duration>1</duration><voice>${this.#staff}</voice><type>eighth</type><staff>${this.#staff}</staff>${isChord ? '' : `<beam number="1">${beam}</beam>`}${digit}</note>`;
  }
}
