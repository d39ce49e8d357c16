import { STRIDES } from '../../view/interval.js';
import type { Term } from './term.js';
import { colour } from './term.js';

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
