// What a connection is told at its start, and whether the server heard it: some pools between a service and its database do not hand it on,
// and then days would be counted in another zone, and the service could change history.
import pg from 'pg';

/** The address leads to something that does not hand on what a connection is told; the message says what to do. */
export class NotHandedOn extends Error {
  constructor() {
    super(
      'DATABASE_URL leads to a pool that does not hand on what a connection is told at its start, the startup parameter "options": the time zone and the role that may not change history. Nothing was changed. Give the address of the server itself, or of a pool that hands it on.',
    );
  }
}

/** The service reckons in UTC; the second one is there to be asked for. */
export const TOLD = '-c timezone=UTC -c backsight.told=yes';
const HEARD = `SELECT current_setting('backsight.told', true) IS NOT DISTINCT FROM 'yes' AS heard`;

/** Connects to the database at `url`. `options` as in TOLD, which they begin with. @throws NotHandedOn */
export async function connected(url: string, options: string = TOLD): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url, options });
  client.on('error', () => {});
  try {
    await client.connect();
    const { rows } = await client.query<{ heard: boolean }>(HEARD);
    if (!rows[0]!.heard) throw new NotHandedOn();
    return client;
  } catch (error) {
    await client.end().catch(() => {});
    throw /unsupported startup parameter/.test(String((error as Error).message)) ? new NotHandedOn() : error;
  }
}
