import fc from 'fast-check';
import { SEED } from './rounds.js';

// Properties draw the same cases every time, so that a failure and the score of a mutant can be had again; another seed
// draws others.
fc.configureGlobal({ seed: SEED });
