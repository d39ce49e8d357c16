import { type Fraction, fraction, ZERO } from '../../numeric/fraction.js';

/** Fractions of a quarter note from ticks, the last one cached, because chords repeat it. */
export class Quarters {
  private lastTicks = 0;
  private last = ZERO;

  constructor(private readonly ticksPerQuarter: number) {}

  of(ticks: number): Fraction {
    if (ticks !== this.lastTicks) {
      this.last = fraction(ticks, this.ticksPerQuarter);
      this.lastTicks = ticks;
    }
    return this.last;
  }
}
