/** With these the user goes on, and may look elsewhere. */
const GOING_ON = ['keydown', 'wheel', 'pointerdown', 'touchstart'] as const;

/**
 * Keeps what the keyboard gives the focus in sight: systems that scroll into sight on the way are laid out only then, others
 * are engraved later, and both push it away again.
 */
export function keepFocusInSight(): void {
  let kept: HTMLElement | undefined;
  document.addEventListener('focusin', ({ target }) => {
    kept = target instanceof HTMLElement && target.matches(':focus-visible') ? target : undefined;
  });
  for (const kind of GOING_ON) addEventListener(kind, () => (kept = undefined), { passive: true });
  const bringBack = (): void => {
    if (kept === undefined || kept !== document.activeElement) return;
    const { top, bottom } = kept.getBoundingClientRect();
    if (bottom <= 0 || top >= innerHeight) kept.scrollIntoView({ block: 'nearest' });
  };
  new ResizeObserver(bringBack).observe(document.body);
}
