import { STRIDES } from '../../view/interval.js';
import { blocksOf, startsOf } from '../terms/blocks.js';
import type { Term } from '../terms/term.js';
import { colour } from '../terms/term.js';

const ROOM = 8;
const RUN = 13;
/** Places in a run, -12 ... 12. */
const IN_RUN = 25;
const FINGERS = 5;
const BLOCKS = blocksOf({
  key: { finger: FINGERS, colour: 2 },
  'place in the octave': {
    finger: FINGERS,
    'ahead, behind, around': 3,
    'room below': ROOM,
    'room above': ROOM,
  },
  turn: { finger: FINGERS, 'led by': RUN, 'leads to': RUN },
  beat: { finger: FINGERS, 'off, on the beat': 2, directions: 9 },
  colours: { finger: FINGERS, 'colours of five keys': 32, onward: 3 },
  neighbours: { finger: FINGERS, 'stride in': STRIDES, 'stride out': STRIDES },
  'since the turn': { finger: FINGERS, semitones: IN_RUN },
  'until the turn': { finger: FINGERS, semitones: IN_RUN },
});
const [KEY, PLACE, TURN, BEAT, COLOURS, NEIGHBOURS, SINCE, UNTIL] = startsOf(BLOCKS) as [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];

/** Semitones of room in eight steps: 0, 1-2, 3-4, 5, 6-7, 8-9, 10-11, 12. */
const STEPS = [0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6, 7];

/**
 * Habit for a single key: finger by key colour; by its place within the octave that the music stays in (ahead, behind,
 * around); by the run that leads to it and the run that follows; by how far the run has come and how far it will go,
 * octaves left out; by the colours of the two keys before and after; by the strides to its neighbours; by the beat.
 */
export const single: Term = {
  name: 'habit: place',
  blocks: BLOCKS,
  slice(view, fingers, surroundings, sink) {
    if (fingers.length !== 1) return;
    const finger = fingers[0]! - 1;
    sink.add(KEY + finger * 2 + colour(view.black[0]), 1);
    const rooms = [surroundings.ahead, surroundings.behind, surroundings.around];
    for (let nth = 0; nth < 3; nth++) {
      const [below, above] = rooms[nth]!;
      sink.add(PLACE + ((finger * 3 + nth) * ROOM + STEPS[below]!) * ROOM + STEPS[above]!, 1);
    }
    sink.add(TURN + (finger * RUN + surroundings.ledBy + 6) * RUN + surroundings.leadsTo + 6, 1);
    const directions = (Math.sign(surroundings.ledBy) + 1) * 3 + Math.sign(surroundings.leadsTo) + 1;
    const onward = Math.sign(surroundings.leadsTo || surroundings.ledBy) + 1;
    sink.add(COLOURS + (finger * 32 + surroundings.colours) * 3 + onward, 1);
    sink.add(NEIGHBOURS + (finger * STRIDES + surroundings.strideIn) * STRIDES + surroundings.strideOut, 1);
    sink.add(SINCE + finger * IN_RUN + surroundings.since + 12, 1);
    sink.add(UNTIL + finger * IN_RUN + surroundings.until + 12, 1);
    sink.add(BEAT + (finger * 2 + (view.onBeat ? 1 : 0)) * 9 + directions, 1);
  },
};
