// Hears every statement that goes to PostgreSQL from this process, whoever sends it: hand-written SQL and what Prisma makes.
import pg from 'pg';

/** One statement as it was sent; `connection` tells those of one transaction from others under way, `trip` those that left together. */
export type Statement = { text: string; values: readonly unknown[]; connection: object; trip: number };

type Sent = { text?: string; values?: readonly unknown[]; submit?: unknown };
type Query = (this: pg.Client, ...given: unknown[]) => unknown;

/** Runs `act` and answers what it came to, with the statements of one database that were sent meanwhile, in their order. */
export async function statementsOf<T>(database: string, act: () => Promise<T>): Promise<{ value: T; statements: Statement[] }> {
  const statements: Statement[] = [];
  let [trip, leaving] = [0, false];
  const client = pg.Client.prototype as unknown as { query: Query };
  const asked = client.query;
  client.query = function (this: pg.Client, ...given: unknown[]) {
    const first = given[0] as string | Sent;
    const sent: Sent = typeof first === 'string' ? { text: first, values: Array.isArray(given[1]) ? given[1] : [] } : first;
    if (this.database === database && sent.text !== undefined) {
      if (!leaving) {
        trip += 1;
        leaving = true;
        queueMicrotask(() => (leaving = false));
      }
      statements.push({ text: sent.text, values: sent.values ?? [], connection: this, trip });
    }
    return asked.apply(this, given);
  };
  try {
    return { value: await act(), statements };
  } finally {
    client.query = asked;
  }
}
