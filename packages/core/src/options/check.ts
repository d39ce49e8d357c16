import { optionError } from '../score/errors.js';

/** Passes a value, or refuses it with an error that names the option and what it may be. */
export type Check = (value: unknown, name: string) => void;

/** Characters of a bad value that a message repeats. */
const SHOWN = 60;

/** @throws HandlineError OPTION */
export function refuse(value: unknown, name: string, allowed: string, words?: readonly string[]): never {
  const values = { ...(typeof value === 'string' && { given: value }), ...(words && { allowed: words }) };
  throw optionError(name, `${shown(value)} is not allowed; give ${allowed}`, {}, values);
}

/** A value in one short line. */
function shown(value: unknown): string {
  const text = typeof value === 'string' ? JSON.stringify(value) : plain(value);
  return text.length > SHOWN ? `${text.slice(0, SHOWN)}...` : text;
}

function plain(value: unknown): string {
  if (typeof value === 'function') return 'a function';
  if (typeof value !== 'object' || value === null) return String(value);
  try {
    return JSON.stringify(value);
  } catch {
    return 'an object';
  }
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** `Array`, `Map`, `Uint8Array`: also for what comes from another realm, where `instanceof` fails. */
export function kindOf(value: unknown): string {
  return Object.prototype.toString.call(value).slice('[object '.length, -1);
}

export const text: Check = (value, name) => {
  if (typeof value !== 'string') refuse(value, name, 'text');
};

export const flag: Check = (value, name) => {
  if (typeof value !== 'boolean') refuse(value, name, 'true or false');
};

/** A whole number; without `most` any that is no less than `least`. */
export function count(least: number, most = Number.POSITIVE_INFINITY): Check {
  const range = Number.isFinite(most) ? `from ${least} to ${most}` : `of at least ${least}`;
  return (value, name) => {
    const fits = Number.isInteger(value) && (value as number) >= least && (value as number) <= most;
    if (!fits) refuse(value, name, `a whole number ${range}`);
  };
}

/** A number above 0, and no more than `most` if that is given. */
export function positive(most?: number): Check {
  return (value, name) => {
    const fits = typeof value === 'number' && value > 0 && (most === undefined || value <= most);
    if (!fits) refuse(value, name, `a number above 0${most === undefined ? '' : ` and up to ${most}`}`);
  };
}

/** A number that is no less than `least`. */
export function atLeast(least: number): Check {
  return (value, name) => {
    const fits = typeof value === 'number' && Number.isFinite(value) && value >= least;
    if (!fits) refuse(value, name, `a number of at least ${least}`);
  };
}

/** The same, or null. */
export function orNothing(check: Check): Check {
  return (value, name) => {
    if (value !== null) check(value, name);
  };
}

export function oneOf(allowed: readonly string[]): Check {
  return (value, name) => {
    if (!allowed.includes(value as string)) refuse(value, name, allowed.join(', '), allowed);
  };
}

export function listOf(check: Check): Check {
  return (value, name) => {
    if (!Array.isArray(value)) refuse(value, name, 'a list');
    for (const item of value as readonly unknown[]) check(item, name);
  };
}

/** An object with any keys, whose values are checked one by one. */
export function mapOf(check: Check): Check {
  return (value, name) => {
    if (!isRecord(value)) return refuse(value, name, 'an object');
    for (const [key, own] of Object.entries(value)) check(own, `${name}.${key}`);
  };
}

/**
 * An object with these keys only. What is undefined counts as left out. The options of a function have no name of their
 * own: messages name the key alone.
 *
 * @param required keys that may not be left out
 */
export function fields(checks: Readonly<Record<string, Check>>, required: readonly string[] = []): Check {
  const names = Object.keys(checks).join(', ');
  return (value, name) => {
    if (!isRecord(value)) return refuse(value, name || 'options', `an object with ${names}`);
    const missing = required.find((key) => value[key] === undefined);
    if (missing !== undefined)
      refuse(value, name || 'options', `an object with ${names}; ${missing} is missing`);
    for (const [key, own] of Object.entries(value)) {
      const path = name === '' ? key : `${name}.${key}`;
      const check = Object.hasOwn(checks, key) ? checks[key] : undefined;
      if (!check) {
        const values = { given: key, allowed: Object.keys(checks) };
        throw optionError(path, `there is no such option; give ${names}`, {}, values);
      }
      if (own !== undefined) check(own, path);
    }
  };
}

export const callback: Check = (value, name) => {
  if (typeof value !== 'function') refuse(value, name, 'a function');
};

/** An object that has values of these kinds, and maybe more. */
export function shaped(kinds: Readonly<Record<string, string>>, allowed: string): Check {
  return (value, name) => {
    const fits = isRecord(value) && Object.entries(kinds).every(([key, kind]) => kindOf(value[key]) === kind);
    if (!fits) refuse(value, name, allowed);
  };
}
