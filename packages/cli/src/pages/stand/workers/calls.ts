/** What one side of a worker sees of it. */
export interface End extends EventTarget {
  postMessage(message: unknown): void;
}

/** Calls that a worker answers, by name: plain data in and out. */
export type Answers = Readonly<Record<string, (ask: never) => unknown>>;

interface Call {
  readonly stand: 'call';
  readonly id: number;
  readonly name: string;
  readonly ask: unknown;
}

type Answer = { readonly stand: 'answer'; readonly id: number } & (
  | { readonly value: unknown }
  | { readonly failed: string }
);

/** Answers calls in a worker. Messages of others pass by. */
export function serve(port: End, answers: Answers): void {
  port.addEventListener('message', async (event) => {
    const { data } = event as MessageEvent<Partial<Call>>;
    if (data.stand !== 'call') return;
    const { id, name, ask } = data as Call;
    const send = (answer: object) => port.postMessage({ stand: 'answer', id, ...answer });
    try {
      send({ value: await answers[name]!(ask as never) });
    } catch (error) {
      send({ failed: (error as Error).message });
    }
  });
}

let lastId = 0;

/** Asks a worker. The promise stays open where the worker is ended. */
export function call<A extends Answers, N extends keyof A & string>(
  worker: End,
  name: N,
  ask: Parameters<A[N]>[0],
): Promise<Awaited<ReturnType<A[N]>>> {
  lastId += 1;
  const id = lastId;
  return new Promise((done, fail) => {
    const hear = (event: Event) => {
      const { data } = event as MessageEvent<Partial<Answer>>;
      if (data.stand !== 'answer' || data.id !== id) return;
      worker.removeEventListener('message', hear);
      if ('value' in data) done(data.value as never);
      else fail(new Error((data as { failed: string }).failed));
    };
    worker.addEventListener('message', hear);
    worker.postMessage({ stand: 'call', id, name, ask } satisfies Call);
  });
}
