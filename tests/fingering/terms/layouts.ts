import { COLOUR, DIRECTION, FINGER, INTERVAL, type Layout, STRIDE } from './counted.js';

/* The features of the terms, in their order, stated once more. */

const numbers = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, nth) => `${from + nth}`);
const COLOURS = COLOUR.flatMap((one) => COLOUR.map((other) => `${one}-${other}`));

export const TRAVEL: Layout = { mm: [['fast', 'moderate', 'slow', 'fresh start']] };

export const POSITION: Layout = {
  place: [
    ['alone', 'beside a held key'],
    ['turning', 'onward', 'returning key', 'returning finger'],
  ],
};

export const REACH: Layout = {
  reach: [
    ['together', 'in time'],
    ['12', '13', '14', '15', '23', '24', '25', '34', '35', '45'],
    ['over', 'strain', 'under relaxed', 'under comfortable'],
  ],
};

export const CROSSING: Layout = {
  'thumb passes': [COLOUR, COLOUR],
  'over the thumb': [COLOUR, COLOUR],
  others: [['long', 'longer on black', 'by 5']],
};

export const HOP: Layout = {
  hop: [
    ['alone', 'beside a held key'],
    ['fast', 'moderate', 'slow'],
  ],
  slide: [['from black']],
};

export const FRAME: Layout = { outside: [['no thumb', '4 for 5', 'neither']] };

export const CHAIN: Layout = {
  skip: [FINGER, FINGER, INTERVAL],
  directions: [FINGER, FINGER, FINGER, DIRECTION, DIRECTION],
  strides: [FINGER, FINGER, FINGER, STRIDE, STRIDE],
  'skip, highest': [FINGER, FINGER, INTERVAL],
  'skip, lowest': [FINGER, FINGER, INTERVAL],
  'directions, highest': [FINGER, FINGER, FINGER, DIRECTION, DIRECTION],
  'directions, lowest': [FINGER, FINGER, FINGER, DIRECTION, DIRECTION],
};

export const CHORD: Layout = {
  key: [FINGER, COLOUR, ['struck', 'held']],
  neighbours: [FINGER, FINGER, numbers(0, 17), COLOURS],
  outer: [FINGER, FINGER, numbers(0, 17)],
  triad: [FINGER, FINGER, FINGER, ['close', 'wide above', 'wide below', 'wide']],
  highest: [FINGER, FINGER, INTERVAL],
  lowest: [FINGER, FINGER, INTERVAL],
  nearest: [FINGER, FINGER, INTERVAL],
  melody: [FINGER, FINGER, STRIDE, STRIDE],
};
