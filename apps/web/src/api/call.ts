// The one way to ask the service: a route of the contract in, its reply out, ProblemError for every no.
import type { z } from 'zod';
import type { BodyOf, ParamsOf, QueryOf, ReplyOf, Route } from '@backsight/contract/route';
import { restHeader } from './atRest.ts';
import { noteClock } from './clock.ts';
import { newId } from './ids.ts';
import { notReached, problemIn } from './problemError.ts';
import { noteReached } from './reached.ts';
import { signInsSoFar } from './signedOut.ts';

type Needed<R extends Route, K extends 'params' | 'query' | 'body', V> = R[K] extends z.ZodType
  ? undefined extends V
    ? { [P in K]?: V }
    : { [P in K]: V }
  : { [P in K]?: undefined };

/** What a call of a route sends besides its address. `key`: keep one per form, so that sending again does it once. */
export type Sent<R extends Route> = Needed<R, 'params', ParamsOf<R>> &
  Needed<R, 'query', QueryOf<R>> &
  Needed<R, 'body', BodyOf<R>> &
  (R['creates'] extends true ? { key?: string } : { key?: undefined }) &
  (R['edits'] extends true ? { version: number } : { version?: number | undefined }) & { signal?: AbortSignal };

type Loose = {
  params?: Record<string, unknown>;
  query?: Record<string, unknown>;
  body?: unknown;
  key?: string;
  version?: number;
  signal?: AbortSignal;
};

/** What was typed as a number and is none would go as null, which may mean something else. */
const asTyped = (_: string, value: unknown): unknown => (Number.isNaN(value) ? 'no number' : value);

/**
 * Calls a route. Creating routes get a fresh Idempotency-Key unless one is passed; editing routes send the version that was seen,
 * and an act on a thing may.
 * @throws ProblemError with the service's code, sentence and fields; code 'not-reached' when no answer came.
 */
export async function call<R extends Route>(route: R, sent: Sent<R>): Promise<ReplyOf<R>> {
  const { params, query, body, key, version, signal } = sent as Loose;
  const headers: Record<string, string> = { accept: 'application/json' };
  if (body !== undefined) headers['content-type'] = 'application/json';
  if (route.creates) headers['idempotency-key'] = key ?? newId();
  if (version !== undefined) headers['if-match'] = `"${version}"`;
  const response = await reach(addressOf(route.path, params, query), {
    method: route.method,
    headers,
    signal,
    body: body === undefined ? undefined : JSON.stringify(body, asTyped),
  });
  if (!response.ok) throw await problemIn(response);
  return (await response.json()) as ReplyOf<R>;
}

/** With a poor signal an answer may never come; what waits is then sent again. */
export const patience = (): AbortSignal => AbortSignal.timeout(20_000);

/** Sends what was kept for a creating route: its filled path, its body and the key under which it is done once. @throws ProblemError */
export async function post(path: string, body: unknown, key: string): Promise<unknown> {
  const headers = { accept: 'application/json', 'content-type': 'application/json', 'idempotency-key': key };
  const response = await reach(path, { method: 'POST', headers, body: JSON.stringify(body), signal: patience() });
  if (!response.ok) throw await problemIn(response);
  return response.json();
}

/** Asks once more where somebody signed in again after it was asked: the no is about the session before. */
async function reach(address: string, init: RequestInit): Promise<Response> {
  const before = signInsSoFar();
  const response = await ask(address, init);
  return response.status === 401 && signInsSoFar() !== before ? ask(address, init) : response;
}

const ask = (address: string, init: RequestInit): Promise<Response> =>
  fetch(address, { ...init, headers: { ...(init.headers as Record<string, string>), ...restHeader() }, credentials: 'same-origin' }).then(
    (response) => {
      noteReached(true);
      noteClock(response.headers.get('date'));
      return response;
    },
    (error: unknown) => {
      if (error instanceof DOMException && error.name === 'AbortError') throw error;
      noteReached(false);
      throw notReached();
    },
  );

/** Puts params into the path and the query after it; undefined values are left out, lists repeat their name. */
export function addressOf(path: string, params: Record<string, unknown> = {}, query: Record<string, unknown> = {}): string {
  const filled = path.replace(/:(\w+)/g, (_, name: string) => encodeURIComponent(String(params[name])));
  const search = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    for (const one of Array.isArray(value) ? value : [value]) if (one !== undefined && one !== null) search.append(name, String(one));
  }
  return search.size > 0 ? `${filled}?${search}` : filled;
}
