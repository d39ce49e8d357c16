/** What every bar on a terminal has in common. */
export const BAR_FORM = {
  hideCursor: true,
  clearOnComplete: true,
  // Signals are met by what ends the run.
  gracefulExit: false,
};
