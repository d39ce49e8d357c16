import type { Term } from './term.js';
import { colour, STRIDES } from './term.js';

const ROOM = 8;
const RUN = 13;
/** Places in a run, -12 ... 12. */
const IN_RUN = 25;
const KEY = 0;
const PLACE = 10;
const TURN = PLACE + 3 * 5 * ROOM * ROOM;
const BEAT = TURN + 5 * RUN * RUN;
const COLOURS = BEAT + 5 * 2 * 9;
const NEIGHBOURS = COLOURS + 5 * 32 * 3;
const SINCE = NEIGHBOURS + 5 * STRIDES * STRIDES;
const UNTIL = SINCE + 5 * IN_RUN;
const SIZE = UNTIL + 5 * IN_RUN;

/** Semitones of room in eight steps: 0, 1-2, 3-4, 5, 6-7, 8-9, 10-11, 12. */
const STEPS = [0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6, 7];

/**
 * Habit for a single key: finger by key colour; by its place within the octave that the music stays in (ahead, behind,
 * around); by the run that leads to it and the run that follows; by how far the run has come and how far it will go,
 * octaves left out; by the colours of the two keys before and after; by the strides to its neighbours; by the beat.
 */
export const single: Term = {
  name: 'habit: place',
  size: SIZE,
  slice(view, fingers, outlook, sink) {
    if (fingers.length !== 1) return;
    const finger = fingers[0]! - 1;
    sink.add(KEY + finger * 2 + colour(view.black[0]), 1);
    const rooms = [outlook.ahead, outlook.behind, outlook.around];
    for (let nth = 0; nth < 3; nth++) {
      const [below, above] = rooms[nth]!;
      sink.add(PLACE + ((finger * 3 + nth) * ROOM + STEPS[below]!) * ROOM + STEPS[above]!, 1);
    }
    sink.add(TURN + (finger * RUN + outlook.ledBy + 6) * RUN + outlook.leadsTo + 6, 1);
    const way = (Math.sign(outlook.ledBy) + 1) * 3 + Math.sign(outlook.leadsTo) + 1;
    const onward = Math.sign(outlook.leadsTo || outlook.ledBy) + 1;
    sink.add(COLOURS + (finger * 32 + outlook.colours) * 3 + onward, 1);
    sink.add(NEIGHBOURS + (finger * STRIDES + outlook.strideIn) * STRIDES + outlook.strideOut, 1);
    sink.add(SINCE + finger * IN_RUN + outlook.since + 12, 1);
    sink.add(UNTIL + finger * IN_RUN + outlook.until + 12, 1);
    sink.add(BEAT + (finger * 2 + (view.onBeat ? 1 : 0)) * 9 + way, 1);
  },
};
