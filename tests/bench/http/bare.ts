// The bare limit: a Fastify handler with nothing around it that runs the statements which the service ran for the same request, through
// pg by name, and answers the same bytes.
import { createHash } from 'node:crypto';
import Fastify, { type FastifyInstance } from 'fastify';
import pg from 'pg';

export type Sent = { text: string; values: unknown[] };
/** `writes` run in one transaction after `reads`. */
export type Recorded = { reads: Sent[]; writes: Sent[]; status: number; reply: unknown };

/** Under which a request is known: creating ones go to one address. */
export const keyOf = (method: string, path: string, key: string | string[] | undefined): string => `${method} ${path} ${String(key)}`;

const named = ({ text, values }: Sent) => ({ name: createHash('sha1').update(text).digest('hex').slice(0, 16), text, values });

/** Reads go out at once over as many connections as there are, as the fastest handler would; the first of them is who is asking. */
export function bareOver(
  url: string,
  { connections, recorded }: { connections: number; recorded: Record<string, Recorded> },
): { app: FastifyInstance } {
  const pool = new pg.Pool({
    connectionString: url,
    max: connections,
    options: '-c timezone=UTC -c application_name=bare -c role=backsight_app',
  });
  pool.on('error', () => {}); // the copy of the database that it reads is dropped under it
  const known = new Map(
    Object.entries(recorded).map(([address, { reads, writes, ...rest }]) => [
      address,
      { reads: reads.map(named), writes: writes.map(named), ...rest },
    ]),
  );
  const app = Fastify({ bodyLimit: 2 * 1024 * 1024 });
  app.all('/*', async (request, reply) => {
    const of = known.get(keyOf(request.method, request.url, request.headers['idempotency-key']));
    if (!of) return reply.code(404).send({ missing: request.url });
    const [session, ...rest] = of.reads;
    if (session) await pool.query(session);
    await Promise.all(rest.map((one) => pool.query(one)));
    if (of.writes.length > 0) await write(pool, of.writes);
    return reply.code(of.status).send(of.reply);
  });
  return { app };
}

/** Invoices have numbers without a gap, so each takes the one that the counter gave before it. */
const INVOICE = /^INSERT INTO "invoice" \((.*?)\)/;
/** Where among its values an invoice has its number; -1 of any other statement. */
const placeOfNumber = (text: string): number => INVOICE.exec(text)?.[1]!.split(', ').indexOf('"number"') ?? -1;

async function write(pool: pg.Pool, writes: readonly ReturnType<typeof named>[]): Promise<void> {
  const client = await pool.connect();
  try {
    await client.query('BEGIN');
    let given: unknown;
    for (const one of writes) {
      const place = placeOfNumber(one.text);
      const { rows } = await client.query<{ n?: number }>(place < 0 ? one : { ...one, values: one.values.with(place, given) });
      given = rows[0]?.n ?? given;
    }
    await client.query('COMMIT');
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  } finally {
    client.release();
  }
}
