// Something between the service and its database that does not hand on what a connection is told: nothing is begun behind it.
import net from 'node:net';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openDatabase } from '@backsight/store/database';
import { migrate } from '@backsight/store/migrate';
import { NotHandedOn } from '@backsight/store/told';
import { testService } from '../support/database.ts';
import { startRelay, type Relay } from '../support/faults/relay.ts';

const MIGRATIONS = path.resolve(import.meta.dirname, '../../prisma/migrations');
const service = testService();
let relay: Relay;
let through: string;

/** StartupMessage: length, version, then names and values, each ended by a zero, and a zero (PostgreSQL 18 manual, "Message Formats"). */
function withoutOptions(message: Buffer): Buffer {
  const said = message.subarray(8, -1).toString('latin1').split('\0').slice(0, -1);
  const at = said.findIndex((word, nth) => nth % 2 === 0 && word === 'options');
  if (at < 0) throw new Error('nothing was told');
  const rest = Buffer.from(
    said
      .toSpliced(at, 2)
      .map((word) => `${word}\0`)
      .join('') + '\0',
    'latin1',
  );
  const head = Buffer.from(message.subarray(0, 8));
  head.writeInt32BE(8 + rest.length);
  return Buffer.concat([head, rest]);
}

beforeAll(async () => {
  const url = new URL(service.url);
  relay = await startRelay(Number(url.port || 5432));
  url.port = String(relay.port);
  through = url.href;
});
afterAll(() => relay.close());

describe('a pool that drops what a connection is told', () => {
  it('is refused with what to do, before anything is opened or changed', async () => {
    relay.changeFirst(withoutOptions);
    await expect(openDatabase(through)).rejects.toThrow(NotHandedOn);
    await expect(migrate(through, MIGRATIONS)).rejects.toThrow(/Give the address of the server itself/);
    expect(relay.done.connections).toBe(2);
  });
  it('is refused the same where it says by itself that it knows no such thing', async () => {
    const fields = ['SFATAL', 'C08P01', 'Munsupported startup parameter: options', ''].map((field) => `${field}\0`).join('');
    const length = Buffer.alloc(4);
    length.writeInt32BE(4 + fields.length);
    const pool = net.createServer((socket) =>
      socket.once('data', () => socket.end(Buffer.concat([Buffer.from('E'), length, Buffer.from(fields)]))),
    );
    await new Promise<void>((resolve) => pool.listen(0, '127.0.0.1', resolve));
    const url = `postgresql://who@127.0.0.1:${(pool.address() as net.AddressInfo).port}/firm`;
    await expect(openDatabase(url)).rejects.toThrow(NotHandedOn);
    await new Promise((resolve) => pool.close(resolve));
  });
  it('that hands everything on is none of that', async () => {
    relay.changeFirst((message) => message);
    const database = await openDatabase(through);
    const [told] = await database.read.rows<{ role: string; zone: string }>(
      `SELECT current_setting('role') AS role, current_setting('TimeZone') AS zone`,
    );
    expect([database.guards, told]).toEqual(['role', { role: 'backsight_app', zone: 'UTC' }]);
    await database.close();
  });
});
