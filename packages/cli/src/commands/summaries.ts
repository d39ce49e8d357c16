/** What each command does, in a line of the help. They stand apart, so that `--help` need not load the commands. */
export const SUMMARIES = {
  mark: 'Write fingering and motion cues into scores',
  clear: "Take Handline's own marks out of scores again; everything else stays",
  handout: 'Make a page for the student: the music with its marks, in pictures and words',
  stand: 'Make a page to try fingerings on, which works without a network',
  review: 'Judge the digits that scores have: what they cost in movement, why, and the easier way',
  drill: 'Make a technique sheet: scales, arpeggios, fragments, fingered and with cues',
} as const;
