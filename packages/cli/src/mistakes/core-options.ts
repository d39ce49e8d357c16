import type { HandlineError } from '@handline/core';
import { didYouMean } from './nearest.js';

/** Options of core that are typed under another name; the others differ at most in their hyphens. */
const TYPED: Readonly<Record<string, string>> = {
  parts: 'part',
  tries: 'try',
  study: 'from',
  rhythms: 'rhythm',
  'fragments.from': 'fragments',
  'fragments.to': 'fragments',
  'fragments.starts': 'degrees',
  'fragments.turns': 'turns',
};

/** Core's message, with the option as it is typed, or as a file of settings has it, and with the value that is near. */
export function asTyped(error: HandlineError, before = '--'): string {
  const { message, option } = error;
  if (option === undefined) return withLimits(message);
  const { name, given, allowed } = option;
  const typed = message.replace(`${name}: `, () => `${before}${typedName(name)}: `);
  return given !== undefined && allowed ? typed + didYouMean(given, allowed) : typed;
}

/** `max-bytes` for `limits.maxBytes`, `motive degrees` for what a value holds. */
function typedName(name: string): string {
  const own = TYPED[name];
  if (own !== undefined) return own;
  const [first = name, ...within] = name.replace(/^limits\./, '').split('.');
  const typed = TYPED[first] ?? first.replaceAll(/[A-Z]/g, (capital) => `-${capital.toLowerCase()}`);
  return within.length === 0 ? typed : `${typed} ${within.join('.')}`;
}

/** A score that is beyond a limit names it, too. */
function withLimits(message: string): string {
  return message.replace(/\blimits\.max([A-Z][a-z]+)/g, (_, name: string) => `--max-${name.toLowerCase()}`);
}
