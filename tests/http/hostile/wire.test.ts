// What is sent over the wire itself: RFC 9112, 6.1 and 6.3 (a message with both lengths, with several, with one that is none), 11.2 (request
// smuggling); RFC 9110, 15.5 and 5.4 (large fields); OWASP Denial of Service Cheat Sheet (slow requests).
import net from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../../apps/api/src/app.ts';
import { testApi } from '../../support/http.ts';
import { servicesOf } from '../../support/services.ts';

const api = testApi();
let app: FastifyInstance;
let port: number;
let closed: () => Promise<unknown>;
beforeAll(async () => {
  const services = servicesOf(api);
  app = await buildApp(services);
  port = Number(new URL(await app.listen({ host: '127.0.0.1', port: 0 })).port);
  closed = () => Promise.all([app.close(), services.planner.close()]);
});
afterAll(() => closed());

/** Everything that is answered to these bytes until the service or the second ends it. */
const say = (text: string): Promise<string> =>
  new Promise((resolve) => {
    const socket = net.connect(port, '127.0.0.1', () => socket.write(text));
    let heard = '';
    const done = () => (socket.destroy(), resolve(heard));
    socket.setTimeout(1500, done);
    socket.on('data', (chunk) => (heard += String(chunk)));
    socket.on('close', done).on('error', done);
  });
const statuses = (heard: string): string[] => [...heard.matchAll(/HTTP\/1\.1 (\d{3})/g)].map(([, status]) => status!);
const post = (lines: string[], body: string): string =>
  ['POST /api/session HTTP/1.1', 'Host: office.test', 'Content-Type: application/json', ...lines, '', body].join('\r\n');
const HIDDEN = 'GET /api/health HTTP/1.1\r\nHost: office.test\r\n\r\n';

describe('a message with two minds about its length', () => {
  it.each([
    ['both lengths', post(['Content-Length: 6', 'Transfer-Encoding: chunked'], `0\r\n\r\n${HIDDEN}`)],
    ['both, the other way round', post(['Transfer-Encoding: chunked', 'Content-Length: 6'], `0\r\n\r\n${HIDDEN}`)],
    ['two lengths', post(['Content-Length: 2', 'Content-Length: 60'], `{}${HIDDEN}`)],
    ['a list of lengths', post(['Content-Length: 2, 60'], `{}${HIDDEN}`)],
    ['a length with a sign', post(['Content-Length: +2'], `{}${HIDDEN}`)],
    ['a length that is none', post(['Content-Length: 0x2'], `{}${HIDDEN}`)],
    ['a coding that is not known', post(['Transfer-Encoding: xchunked'], `0\r\n\r\n${HIDDEN}`)],
    ['chunked not last', post(['Transfer-Encoding: chunked, identity'], `0\r\n\r\n${HIDDEN}`)],
    ['a blank before the colon', post(['Transfer-Encoding : chunked'], `0\r\n\r\n${HIDDEN}`)],
    ['a chunk whose size is none', post(['Transfer-Encoding: chunked'], `zz\r\n{}\r\n0\r\n\r\n${HIDDEN}`)],
    [
      'a line broken by hand',
      post(['X-Note: a\r\n Transfer-Encoding: chunked', 'Content-Length: 2'], `{}${HIDDEN}`).replace('\r\n Transfer', '\nTransfer'),
    ],
  ])('%s is refused, and what hides behind it is no request', async (_, text) => {
    expect(statuses(await say(text))).toEqual(['400']);
  });
  it('is no usual one: two requests on one line are two answers', async () =>
    expect(statuses(await say(`${HIDDEN}${HIDDEN}`))).toEqual(['200', '200']));
});

describe('a head', () => {
  it.each([
    ['of a very long field', `GET /api/health HTTP/1.1\r\nHost: x\r\nX-Long: ${'a'.repeat(40_000)}\r\n\r\n`],
    [
      'of very many fields',
      `GET /api/health HTTP/1.1\r\nHost: x\r\n${Array.from({ length: 4000 }, (__, n) => `X-${n}: aaaaaaaa\r\n`).join('')}\r\n`,
    ],
    ['of a very long address', `GET /api/health?${'a'.repeat(40_000)} HTTP/1.1\r\nHost: x\r\n\r\n`],
  ])('%s is refused', async (_, text) => expect(statuses(await say(text))[0]).toMatch(/431|414/));
  it('without a host, of another version or no request at all is refused', async () => {
    for (const text of ['GET /api/health HTTP/1.1\r\n\r\n', 'GET /api/health HTTP/9.9\r\nHost: x\r\n\r\n', 'hello\r\n\r\n'])
      expect(statuses(await say(text))[0], text).toMatch(/^4|505/);
  });
});

describe('whoever is slow', () => {
  it('is cut off: a head after a minute, a request after five', () => {
    expect(app.server.headersTimeout).toBeGreaterThan(0);
    expect(app.server.headersTimeout).toBeLessThanOrEqual(60_000);
    expect(app.server.requestTimeout).toBeGreaterThan(0);
    expect(app.server.requestTimeout).toBeLessThanOrEqual(300_000);
    expect(app.server.keepAliveTimeout).toBeLessThanOrEqual(72_000);
  });
});
