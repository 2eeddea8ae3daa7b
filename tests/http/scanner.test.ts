// Files before a scanner that speaks INSTREAM (ClamAV manual, clamd(8)): clean ones are taken, harmful ones and those that nobody looked at are not.
import net, { type AddressInfo } from 'node:net';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { scannerAt } from '../../apps/api/src/adapters/scanner.ts';
import { buildApp } from '../../apps/api/src/app.ts';
import { filesIn } from '../../apps/api/src/http/scanFiles.ts';
import { CAST } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { servicesOf } from '../support/services.ts';

// The harmless test file of EICAR (eicar.org, "Anti malware testfile"), written in two parts so that no scanner stumbles over this file.
const EICAR = Buffer.from(['X5O!P%@AP[4\\PZX54(P^)7CC)7}$EICAR', '-STANDARD-ANTIVIRUS-TEST-FILE!$H+H*'].join(''));
const api = testApi();
const seen: Buffer[] = [];
let silent = false;
let app: Awaited<ReturnType<typeof buildApp>>;
let address: string;

/** Puts a stream of pieces together; null while it is not whole. */
function wholeOf(got: Buffer): Buffer | null {
  const head = Buffer.from('zINSTREAM\0');
  expect(got.subarray(0, head.length)).toEqual(head.subarray(0, got.length));
  const pieces: Buffer[] = [];
  for (let at = head.length; at + 4 <= got.length;) {
    const length = got.readUInt32BE(at);
    if (length === 0) return Buffer.concat(pieces);
    if (at + 4 + length > got.length) return null;
    pieces.push(got.subarray(at + 4, at + 4 + length));
    at += 4 + length;
  }
  return null;
}

const server = net.createServer((socket) => {
  let got = Buffer.alloc(0);
  socket.on('error', () => {});
  socket.on('data', (part) => {
    got = Buffer.concat([got, part as Buffer]);
    const file = silent ? null : wholeOf(got);
    if (file === null) return;
    seen.push(file);
    socket.end(file.includes(EICAR) ? 'stream: Test-Signature FOUND\0' : 'stream: OK\0');
  });
});

beforeAll(async () => {
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  address = `tcp://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const services = servicesOf(api, { SCANNER_URL: address });
  app = await buildApp(services);
  afterAll(() => Promise.all([app.close(), services.planner.close(), new Promise((resolve) => server.close(resolve))]));
});
beforeEach(() => {
  seen.length = 0;
  silent = false;
});

describe('the scanner', () => {
  it('gets a file whole, in pieces, and its word counts', async () => {
    const large = Buffer.alloc(200_001, 'heron');
    expect([await scannerAt(address)(large), await scannerAt(address)(EICAR)]).toEqual(['clean', 'harmful']);
    expect(seen).toEqual([large, EICAR]);
  });
  it('that does not answer is no yes', async () => {
    silent = true;
    await expect(scannerAt(address, 300)(EICAR)).rejects.toThrow('took too long');
    await expect(scannerAt('tcp://127.0.0.1:1')(EICAR)).rejects.toThrow('ECONNREFUSED');
  });
  it('finds the files of a body wherever they stand', () => {
    const file = Buffer.alloc(400, 7);
    const body = {
      name: 'x',
      a: [{ base64: file.toString('base64') }],
      b: `data:image/png;base64,${file.toString('base64')}`,
      c: 'word '.repeat(99),
    };
    expect(filesIn(body)).toEqual([file, file]);
  });
});

const HOURS = { category: 'Inspection', title: 'Roofs', onDay: '2026-05-01', minutes: 60 };

describe('a file that somebody sends', () => {
  const send = async (bytes: Buffer) => {
    await api.send('anna', 'GET', '/api/me');
    const reply = await app.inject({
      method: 'POST',
      url: `/api/people/${CAST.anna.id}/education`,
      headers: { cookie: api.cookie('anna'), 'idempotency-key': 'a file for the scanner'.replaceAll(' ', '-') },
      payload: { ...HOURS, id: api.newId(), file: { name: 'x.pdf', base64: bytes.toString('base64') } },
    });
    return [reply.statusCode, reply.json().code];
  };
  it('is refused where it is harmful, and where nobody looked at it', async () => {
    const harmful = Buffer.concat([Buffer.from('%PDF-1.7\n'), Buffer.alloc(200, ' '), EICAR]);
    expect(await send(harmful)).toEqual([422, 'file-harmful']);
    expect(seen).toEqual([harmful]);
    expect(await api.database.read.rows('SELECT 1 FROM stored_file')).toEqual([]);
    await new Promise((resolve) => server.close(resolve));
    expect(await send(harmful)).toEqual([503, 'scanner-silent']);
    await new Promise<void>((resolve) => server.listen(Number(new URL(address).port), '127.0.0.1', resolve));
  });
});
