import fc from 'fast-check';

// Properties draw the same cases every time, so that a failure and the score of a mutant can be had again; another seed
// draws others.
fc.configureGlobal({ seed: Number(process.env.HANDLINE_SEED ?? 1) });
