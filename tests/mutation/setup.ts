import fc from 'fast-check';
import '../seed.js';

// A mutant is judged by the first case that fails: nobody reads the smallest one.
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });
