// People at their screens and phones while things break: whoever gets no answer sends the same again under the same key until there is one.
import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { CAST, PASSWORD, type CastName } from '../cast.ts';
import type { Answer } from '../http.ts';

export type Tally = {
  requests: number;
  /** Connections that broke, or brought no answer in time. */
  unanswered: number;
  /** Answers that nothing can be done just now, by their code. */
  outages: Record<string, number>;
  /** Sent again, and then answered. */
  again: number;
};

/** Numbers from 0 to 1 (mulberry32, from memory). */
export function chance(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The same faults again: FAULT_SEED. */
export const SEED = Number(process.env.FAULT_SEED ?? Date.now() % 1_000_000);
export const sleep = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

const PATIENCE_MS = 20_000;
/** Nothing that breaks here stays broken for so long. */
const LONGEST_MS = 300_000;

type Method = 'GET' | 'POST' | 'PUT' | 'PATCH';
export type Clients = ReturnType<typeof clientsOf>;

/** One try, and tries until there is an answer, at whichever address `base` answers then. */
function triesOf(base: () => string, tally: Tally) {
  async function once(path: string, init: RequestInit): Promise<Answer | null> {
    tally.requests += 1;
    try {
      const reply = await fetch(`${base()}${path}`, { redirect: 'manual', ...init, signal: AbortSignal.timeout(PATIENCE_MS) });
      const bytes = Buffer.from(await reply.arrayBuffer());
      const body = reply.headers.get('content-type')?.includes('json') ? JSON.parse(bytes.toString()) : bytes.toString();
      return { status: reply.status, body, headers: Object.fromEntries(reply.headers), bytes };
    } catch {
      tally.unanswered += 1;
      return null;
    }
  }

  /** Until there is an answer that is about the request. What the service calls its own fault (500) fails the test. */
  async function until(path: string, init: RequestInit): Promise<Answer & { tries: number }> {
    const begun = performance.now();
    const was: string[] = [];
    for (let tries = 1; ; tries++) {
      const answer = await once(path, init);
      was.push(`${Math.round((performance.now() - begun) / 1000)}: ${answer?.body?.code ?? answer?.status ?? 'none'}`);
      if (answer && answer.status < 500 && answer.status !== 429) {
        if (tries > 1) tally.again += 1;
        return { ...answer, tries };
      }
      if (answer) {
        const code = String(answer.body?.code ?? answer.status);
        expect([503, 507, 429], `${init.method} ${path}: ${JSON.stringify(answer.body)}`).toContain(answer.status);
        tally.outages[code] = (tally.outages[code] ?? 0) + 1;
      }
      if (performance.now() - begun > LONGEST_MS)
        throw new Error(`no answer at all: ${init.method} ${path}; seconds: what came: ${was.join(', ')}`);
      await sleep(250);
    }
  }

  return { once, until };
}

const sent = (method: Method, body?: unknown, more: Record<string, string> = {}): RequestInit => ({
  method,
  headers: { ...more, ...(body === undefined ? {} : { 'content-type': 'application/json' }) },
  ...(body === undefined ? {} : { body: JSON.stringify(body) }),
});

/** Talks to whichever address `base` answers then; sessions are kept over restarts. */
export function clientsOf(base: () => string) {
  const cookies = new Map<CastName, Promise<string>>();
  const tally: Tally = { requests: 0, unanswered: 0, outages: {}, again: 0 };
  const { once, until } = triesOf(base, tally);

  const cookieOf = (who: CastName): Promise<string> => {
    const known = cookies.get(who);
    if (known) return known;
    const made = until('/api/session', sent('POST', { email: CAST[who].email, password: PASSWORD })).then((reply) => {
      expect(reply.status, JSON.stringify(reply.body)).toBe(200);
      return String(reply.headers['set-cookie']).split(';')[0]!;
    });
    cookies.set(who, made);
    return made;
  };

  const headersOf = async (who: CastName | 'nobody', key: string, version?: number): Promise<Record<string, string>> => ({
    'idempotency-key': key,
    ...(who === 'nobody' ? {} : { cookie: await cookieOf(who) }),
    ...(version === undefined ? {} : { 'if-match': `"${version}"` }),
  });

  return {
    tally,
    send: async (who: CastName | 'nobody', method: Method, path: string, more: { body?: unknown; key?: string; version?: number } = {}) =>
      until(path, sent(method, more.body, await headersOf(who, more.key ?? randomUUID(), more.version))),
    /** One try alone; null: no answer came. */
    once: async (who: CastName | 'nobody', method: Method, path: string, more: { body?: unknown; key?: string; version?: number } = {}) =>
      once(path, sent(method, more.body, await headersOf(who, more.key ?? randomUUID(), more.version))),
    /** Posts a form of a client's private page. */
    form: (path: string, fields: Record<string, string>) =>
      until(path, {
        method: 'POST',
        headers: { 'content-type': 'application/x-www-form-urlencoded', 'user-agent': 'A phone' },
        body: new URLSearchParams(fields).toString(),
      }),
  };
}
