// Sends several statements over one connection in one go: `pg` writes each by itself and waits for none (`pipeline`).
import type pg from 'pg';

export type Statement<Q extends pg.QueryConfig = pg.QueryConfig> = {
  query: Q;
  answered: (answer: pg.QueryResult) => void;
  failed: (why: unknown) => void;
};

/** What pg writes its messages to: held shut, so that they leave together. */
type Line = { connection?: { stream: { cork(): void; uncork(): void } } };

/** Settled when each has its answer or its error. `took` hears how many milliseconds a statement took by itself, not what it waited for those before it. */
export async function inOneGo<Q extends pg.QueryConfig>(
  client: pg.ClientBase,
  statements: readonly Statement<Q>[],
  took: (query: Q, ms: number) => void,
): Promise<void> {
  const line = (client as Line).connection?.stream;
  let before = performance.now();
  line?.cork();
  const sent = statements.map(({ query, answered, failed }) =>
    client.query(query).then((answer) => {
      took(query, performance.now() - before);
      before = performance.now();
      answered(answer);
    }, failed),
  );
  line?.uncork();
  await Promise.all(sent);
}
