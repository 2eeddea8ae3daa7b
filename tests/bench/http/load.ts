// Sends requests over open connections and reads no more of an answer than it must: the fewer processor time this takes, the more of
// what is measured is the service.
import net from 'node:net';

/** One request as it goes out. */
export const requestOf = (method: string, path: string, headers: Record<string, string>, body?: unknown): Buffer => {
  const text = body === undefined ? '' : JSON.stringify(body);
  const all = {
    host: '127.0.0.1',
    ...headers,
    ...(body === undefined ? {} : { 'content-type': 'application/json' }),
    ...(method === 'GET' ? {} : { 'content-length': String(Buffer.byteLength(text)) }),
  };
  const lines = Object.entries(all).map(([name, value]) => `${name}: ${value}`);
  return Buffer.from(`${method} ${path} HTTP/1.1\r\n${lines.join('\r\n')}\r\n\r\n${text}`);
};

export type Load = { answered: number; seconds: number; ms: number[] };

/** Keeps `connections` requests under way until `next` has no more. @throws Error with the answer when one is not a yes */
export async function load(port: number, connections: number, next: () => Buffer | null): Promise<Load> {
  const began = performance.now();
  const ms: number[] = [];
  await Promise.all(Array.from({ length: connections }, () => one(port, next, ms)));
  return { answered: ms.length, seconds: (performance.now() - began) / 1000, ms };
}

const END = Buffer.from('\r\n\r\n');
const LENGTH = /content-length: (\d+)/i;

function one(port: number, next: () => Buffer | null, ms: number[]): Promise<void> {
  return new Promise((resolve, reject) => {
    const socket = net.connect({ port, host: '127.0.0.1', noDelay: true });
    let [sentAt, got, whole] = [0, 0, -1];
    let first: Buffer | null = null;
    const send = (): void => {
      const request = next();
      if (request === null) {
        socket.end();
        return resolve();
      }
      [sentAt, got, whole, first] = [performance.now(), 0, -1, null];
      socket.write(request);
    };
    socket.on('connect', send);
    socket.on('error', reject);
    socket.on('data', (chunk) => {
      got += chunk.length;
      if (whole < 0) {
        first = first === null ? chunk : Buffer.concat([first, chunk]);
        const end = first.indexOf(END);
        if (end < 0) return;
        const head = first.toString('latin1', 0, end);
        whole = end + END.length + Number(LENGTH.exec(head)?.[1] ?? NaN);
        if (!/^HTTP\/1\.1 2/.test(head) || Number.isNaN(whole)) {
          socket.destroy();
          return reject(new Error(first.toString('utf8').slice(0, 1000)));
        }
      }
      if (got < whole) return;
      ms.push(performance.now() - sentAt);
      send();
    });
  });
}

/** For `seconds` the same request again and again, at most so often. */
export function again(request: Buffer, seconds: number, most = Infinity): () => Buffer | null {
  const until = performance.now() + seconds * 1000;
  let sent = 0;
  return () => (performance.now() < until && sent++ < most ? request : null);
}

/** Each of these once. */
export function each(requests: readonly Buffer[]): () => Buffer | null {
  let at = 0;
  return () => requests[at++] ?? null;
}
