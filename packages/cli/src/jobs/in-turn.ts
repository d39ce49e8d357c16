/** Has at most `most` of the items taken at once, in their order; nothing waits in memory but the list itself. */
export async function inTurn<T>(
  items: readonly T[],
  most: number,
  take: (place: number, item: T) => Promise<void>,
): Promise<void> {
  const left = items.entries();
  const taker = async (): Promise<void> => {
    for (const [place, item] of left) await take(place, item);
  };
  await Promise.all(Array.from({ length: most }, taker));
}
