import type { Settings } from './session.js';
import type { Start } from './start.js';

/** What the page keeps in its entry of the tab's history: there it outlives a reload, from a file as from a server. */
interface Kept {
  /** The choices with which the page was made: those of another page at this address count for nothing. */
  readonly made: string;
  readonly settings: Settings;
}

/** To be called at every change. */
export function keepSettings(settings: Settings): void {
  const kept: Kept = { made: madeWith(), settings };
  history.replaceState(kept, '');
}

/** What was chosen before a reload. */
export function keptSettings(): Settings | undefined {
  const kept = history.state as Kept | null;
  return kept?.made === madeWith() ? kept.settings : undefined;
}

function madeWith(): string {
  const { marking = {} } = JSON.parse(document.getElementById('start')!.textContent!) as Start;
  return JSON.stringify([document.documentElement.dataset.version, marking]);
}
