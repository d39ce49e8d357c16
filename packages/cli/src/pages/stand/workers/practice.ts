import type { End } from './calls.js';

/**
 * Does something before it is asked for: code that runs for the first time takes a browser long, and here it takes it while
 * the user looks for a file. Ends with the first message, because what is asked for is practice too.
 */
export async function practise(port: End, rounds: readonly (() => void)[]): Promise<void> {
  let isAsked = false;
  const hear = () => {
    isAsked = true;
  };
  port.addEventListener('message', hear, { once: true });
  for (const round of rounds) {
    await new Promise((done) => setTimeout(done));
    if (isAsked) return;
    round();
  }
  port.removeEventListener('message', hear);
}
