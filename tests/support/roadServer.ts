// A road service on this machine that speaks the documented shapes of OSRM (docs/http.md) and Valhalla (docs/api/matrix), with faults to order.
import http from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll } from 'vitest';

export type Fault =
  | 'none'
  | 'silent'
  | 'status 500'
  | 'no json'
  | 'null cells'
  | 'too big'
  | 'wrong size'
  | 'redirect'
  | 'endless'
  | 'no road'
  | 'other shape';

export type RoadServer = { url: string; fault: Fault; /** Most places in one question. */ limit: number; asked: string[]; version: string };

/** Every drive takes ten minutes and as many seconds as its place has in the question, so that rows and columns cannot be mistaken. */
const secondsAt = (row: number, column: number): number => 600 + row * 10 + column + 0.4;

type Reply = { status: number; body: unknown };
const nulls = (server: RoadServer, row: number, column: number): number | null =>
  server.fault === 'null cells' && (row + column) % 2 === 1 ? null : secondsAt(row, column);

function osrm(server: RoadServer, url: URL): Reply {
  const places = url.pathname.split('/').at(-1)!.split(';');
  if (url.pathname.startsWith('/nearest/')) return { status: 200, body: { code: 'Ok', data_version: server.version, waypoints: [] } };
  const pick = (name: string) => url.searchParams.get(name)!.split(';').map(Number);
  const [sources, destinations] = [pick('sources'), pick('destinations')];
  if (server.fault === 'too big' || places.length > server.limit)
    return { status: 400, body: { code: 'TooBig', message: 'Too many table coordinates' } };
  if (server.fault === 'no road')
    return { status: 400, body: { code: 'NoSegment', message: 'Could not find a matching segment for coordinate 0' } };
  const durations = sources.map((_, row) => destinations.map((__, column) => nulls(server, row, column)));
  return {
    status: 200,
    body: { code: 'Ok', durations: server.fault === 'wrong size' ? durations.slice(1) : durations, sources: [], destinations: [] },
  };
}

function valhalla(server: RoadServer, url: URL, sent: string): Reply {
  if (url.pathname === '/status') return { status: 200, body: { version: server.version, tileset_last_modified: 1_760_000_000 } };
  const { sources, targets } = JSON.parse(sent) as { sources: unknown[]; targets: unknown[] };
  const refused = (error_code: number, error: string): Reply => ({
    status: 400,
    body: { error_code, error, status_code: 400, status: 'Bad Request' },
  });
  if (server.fault === 'too big' || sources.length + targets.length > server.limit) return refused(150, 'Exceeded max locations');
  if (server.fault === 'no road') return refused(171, 'No suitable edges near location');
  const rows = sources.map((_, row) =>
    targets.map((__, column) => ({ distance: 8.1, time: nulls(server, row, column), to_index: column, from_index: row })).reverse(),
  );
  return {
    status: 200,
    body: {
      sources_to_targets: server.fault === 'wrong size' ? rows.map((row) => row.slice(1)) : rows,
      units: 'kilometers',
      sources: [sources],
      targets: [targets],
    },
  };
}

function answer(server: RoadServer, request: http.IncomingMessage, sent: string, response: http.ServerResponse): void {
  const url = new URL(request.url!, 'http://road.example');
  server.asked.push(url.pathname + sent);
  if (server.fault === 'silent') return;
  if (server.fault === 'redirect') return void response.writeHead(302, { location: `${server.url}/inside` }).end();
  if (server.fault === 'no json') return void response.writeHead(200).end('<html>welcome</html>');
  if (server.fault === 'status 500') return void response.writeHead(500).end('oh');
  if (server.fault === 'other shape') return void response.writeHead(200).end('[1, 2]');
  if (server.fault === 'endless') {
    response.writeHead(200);
    const more = (): void => void (response.destroyed || response.write('x'.repeat(500_000), more));
    return more();
  }
  const reply = /^\/(table|nearest)\//.test(url.pathname) ? osrm(server, url) : valhalla(server, url, sent);
  response.writeHead(reply.status, { 'content-type': 'application/json' }).end(JSON.stringify(reply.body));
}

/** Starts it before the tests of the file and stops it after them. */
export function roadServer(): RoadServer {
  const server: RoadServer = { url: '', fault: 'none', limit: 100, asked: [], version: '2026-10-01' };
  const listener = http.createServer((request, response) => {
    let sent = '';
    request.on('data', (chunk: Buffer) => (sent += chunk.toString()));
    request.on('end', () => answer(server, request, sent, response));
    response.on('error', () => {});
  });
  beforeAll(async () => {
    await new Promise<void>((done) => listener.listen(0, '127.0.0.1', done));
    server.url = `http://127.0.0.1:${(listener.address() as AddressInfo).port}`;
  });
  afterAll(() => {
    listener.closeAllConnections();
    listener.close();
  });
  return server;
}
