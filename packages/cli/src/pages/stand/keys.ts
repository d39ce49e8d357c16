import type { Finger } from '@handline/core';

/** What a key on the computer's keyboard means in the music. */
export type KeyAct =
  | { readonly kind: 'along' | 'across'; readonly by: 1 | -1 }
  | { readonly kind: 'finger'; readonly finger: Finger }
  | { readonly kind: 'back' | 'undo' | 'redo' };

const ACTS: Readonly<Record<string, KeyAct>> = {
  ArrowRight: { kind: 'along', by: 1 },
  ArrowLeft: { kind: 'along', by: -1 },
  ArrowUp: { kind: 'across', by: 1 },
  ArrowDown: { kind: 'across', by: -1 },
  Backspace: { kind: 'back' },
  Delete: { kind: 'back' },
};

export function actOf(event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>) {
  const { key, ctrlKey, metaKey, shiftKey, altKey } = event;
  if (altKey) return undefined;
  if (ctrlKey || metaKey) {
    const letter = key.toLowerCase();
    if (letter === 'z') return { kind: shiftKey ? 'redo' : 'undo' } as KeyAct;
    return letter === 'y' ? ({ kind: 'redo' } as KeyAct) : undefined;
  }
  if (/^[1-5]$/.test(key)) return { kind: 'finger', finger: Number(key) as Finger } as KeyAct;
  return Object.hasOwn(ACTS, key) ? ACTS[key] : undefined;
}
