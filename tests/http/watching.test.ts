// Tag: time, any day.
// What watches the service: figures in the Prometheus text format (prometheus.io, "Exposition formats", version 0.0.4), ids of requests, and log lines without secrets.
import { Writable } from 'node:stream';
import Fastify from 'fastify';
import { afterAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../apps/api/src/app.ts';
import { logging, shownPath } from '../../apps/api/src/http/logging.ts';
import { readConfig } from '../../apps/api/src/config.ts';
import { testApi } from '../support/http.ts';
import { servicesOf } from '../support/services.ts';

const api = testApi();
const TOKEN = 'a token of sixteen and more';
const read = (headers: Record<string, string> = {}, remoteAddress = '127.0.0.1') =>
  api.app().inject({ method: 'GET', url: '/metrics', headers, remoteAddress });

describe('/metrics', () => {
  it('tells times by route, connections and what waits, each line as the format says', async () => {
    await api.app().inject({ method: 'GET', url: '/api/health' });
    await api.app().inject({ method: 'GET', url: '/api/people/00000000-0000-7000-8000-000000000001' });
    const reply = await read();
    expect(reply.headers['content-type']).toMatch(/^text\/plain; version=0\.0\.4/);
    const lines = reply.body.split('\n').filter((line) => line !== '');
    expect(
      lines.filter((line) => !/^(# (HELP|TYPE) \w+ .+|\w+(\{(\w+="[^"\n]*",?)*\})? (\d+(\.\d+)?(e[-+]\d+)?|\+Inf|NaN))$/.test(line)),
    ).toEqual([]);
    expect(lines).toEqual(
      expect.arrayContaining([
        'http_request_duration_seconds_count{method="GET",route="/api/health",status="200"} 1',
        'http_request_duration_seconds_count{method="GET",route="/api/people/:id",status="401"} 1',
        'backsight_waiting{thing="mails"} 0',
        expect.stringMatching(/^backsight_database_connections\{state="open"\} [1-9]/),
      ]),
    );
  });
  it('is there for this machine alone, or for whoever has the token', async () => {
    expect((await read({}, '10.1.2.3')).statusCode).toBe(404);
    expect((await read({ 'x-forwarded-for': '10.1.2.3' })).statusCode).toBe(404);
    const services = servicesOf(api, { METRICS_TOKEN: TOKEN });
    const app = await buildApp(services);
    afterAll(() => Promise.all([app.close(), services.planner.close()]));
    const asked = async (headers: Record<string, string>) =>
      (await app.inject({ method: 'GET', url: '/metrics', headers, remoteAddress: '10.1.2.3' })).statusCode;
    expect(await asked({ authorization: `Bearer ${TOKEN}` })).toBe(200);
    for (const authorization of ['', 'Bearer', `Bearer ${TOKEN}x`, `Basic ${TOKEN}`]) expect(await asked({ authorization })).toBe(404);
    expect((await app.inject({ method: 'GET', url: '/metrics' })).statusCode).toBe(404);
  });
});

describe('a request', () => {
  it('has an id of its own, whatever the caller says', async () => {
    const ids = await Promise.all(
      [1, 2].map(async () => (await api.app().inject({ url: '/api/health', headers: { 'x-request-id': 'mine' } })).headers['x-request-id']),
    );
    expect(new Set([...ids, 'mine']).size).toBe(3);
  });
  it('is logged without private links, queries, addresses and what rows hold', async () => {
    const link = '/client/q8Jm1vY0cN5sR2tU7wX4zA9bC6dE3fG1hI0jK5lM8nP/sign';
    expect([shownPath(`${link}?word=heron`), shownPath('/api/people?q=Vera'), shownPath('/week/2026-05-12')]).toEqual([
      '/client/(private)/sign',
      '/api/people',
      '/week/2026-05-12',
    ]);
    const lines: string[] = [];
    const stream = new Writable({ write: (chunk, _, done) => (lines.push(String(chunk)), done()) });
    const { logger, ...options } = logging(readConfig({ LOG_LEVEL: 'info' }, '/'));
    const app = Fastify({ ...options, logger: { ...(logger as object), stream } });
    app.get(link, (request) => {
      request.log.error({ err: Object.assign(new Error('refused'), { code: '23505', detail: 'Key (email)=(vera@mail.example) exists' }) });
      return {};
    });
    await app.inject({ url: `${link}?word=heron`, remoteAddress: '10.1.2.3' });
    await app.close();
    const text = lines.join('');
    expect(text).toContain('"reqId":"');
    expect(text).toContain('23505');
    for (const secret of ['q8Jm1v', 'heron', '10.1.2.3', 'vera@']) expect(text).not.toContain(secret);
  });
});
