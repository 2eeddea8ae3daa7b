// Where a request ends and what it may hold: framing (RFC 9112, 6.3), methods, parameters sent twice, names that reach into prototypes
// (OWASP ASVS 5.0.0, 4.2.1, 13.4.4, 15.3.6, 15.3.7).
import net, { type AddressInfo } from 'node:net';
import { beforeAll, describe, expect, it } from 'vitest';
import { testApi } from '../support/http.ts';

const api = testApi();
let port: number;
beforeAll(async () => {
  await api.app().listen({ port: 0, host: '127.0.0.1' });
  port = (api.app().server.address() as AddressInfo).port;
});

/** Sends bytes as they are; answers the status line of everything that came back. */
const raw = (text: string): Promise<string[]> =>
  new Promise((resolve, reject) => {
    const socket = net.connect(port, '127.0.0.1', () => socket.write(text));
    let got = '';
    socket.setEncoding('utf8').on('data', (part: string) => (got += part));
    socket.on('error', reject).on('close', () => resolve([...got.matchAll(/^HTTP\/1\.1 (\d{3})/gm)].map((m) => m[1]!)));
    setTimeout(() => socket.end(), 700);
  });
const HIDDEN = 'GET /api/people HTTP/1.1\r\nhost: x\r\n\r\n';

describe('a request', () => {
  it('that gives its length twice over, or in two ways, is refused, and no second one is found in it', async () => {
    const head = 'POST /api/session HTTP/1.1\r\nhost: x\r\ncontent-type: application/json\r\n';
    expect(await raw(`${head}content-length: 5\r\ntransfer-encoding: chunked\r\n\r\n0\r\n\r\n${HIDDEN}`)).toEqual(['400']);
    expect(await raw(`${head}content-length: 2\r\ncontent-length: 60\r\n\r\n{}${HIDDEN}`)).toEqual(['400']);
    expect(await raw(`${head}transfer-encoding: chunked, identity\r\n\r\n0\r\n\r\n${HIDDEN}`)).toEqual(['400']);
  });
  it('by TRACE is not answered with what was sent', async () => {
    const status = await raw('TRACE /api/health HTTP/1.1\r\nhost: x\r\nx-secret: heron\r\nconnection: close\r\n\r\n');
    expect(
      status.every((code) => code === '400' || code === '404' || code === '405'),
      status.join(),
    ).toBe(true);
  });
  it('with a parameter twice is refused where one is meant', async () => {
    const reply = await api.send('office', 'GET', '/api/find?q=heron&q=lake');
    expect([reply.status, reply.body.code, reply.body.field]).toEqual([422, 'not-valid', 'q']);
  });
  it.each(['{"email":"a","password":"b","__proto__":{"roles":["owner"]}}', '{"email":"a","constructor":{"prototype":{"x":1}}}'])(
    'whose names reach into prototypes is refused: %s',
    async (payload) => {
      const headers = { 'content-type': 'application/json' };
      const reply = await api.app().inject({ method: 'POST', url: '/api/session', headers, payload });
      expect([400, 422]).toContain(reply.statusCode);
      expect(({} as { roles?: unknown; x?: unknown }).roles ?? ({} as { x?: unknown }).x).toBeUndefined();
    },
  );
});
