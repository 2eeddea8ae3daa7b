// Hangs one contract route into the server: schemas, who may, idempotency key, version, one use case, reply.
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { idParams, type Route } from '@backsight/contract/route';
import { problem } from '@backsight/contract/problem';
import type { Act, Actor } from '@backsight/usecases/run';
import { mayReach, type ThingOfJob } from '@backsight/usecases/jobs/mayReach';
import type { Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { disposedOf } from './disposed.ts';
import { badRequest, factorNeeded, notAllowed, notSignedIn, problemOf, sendProblem, type Refused } from './problem.ts';
import type { Services } from './services.ts';
import { comesFromElsewhere } from './session.ts';

type Got<S> = S extends z.ZodType ? z.output<S> : undefined;

export type Call<R extends Route> = {
  params: Got<R['params']>;
  query: Got<R['query']>;
  body: Got<R['body']>;
  /** Version that the caller saw; only on routes that edit. */
  version: number;
  actor: Actor;
  read: Reader;
  now: Date;
  /** Runs the one use case of the route under the caller's idempotency key; a version that a creating call names is held against the newest. */
  act: <I, O>(act: Act<I, O>, input: I) => Promise<Outcome<O>>;
  /** What the act would answer; changes nothing. */
  rehearse: <I, O>(act: Act<I, O>, input: I) => Promise<Outcome<O>>;
  request: FastifyRequest;
  reply: FastifyReply;
};

type Handler<R extends Route> = (call: Call<R>) => Promise<Outcome<z.input<R['reply']>> | z.input<R['reply']>>;

/** Hangs a route. The handler answers an outcome (a refusal becomes problem details) or the reply itself. */
export function mount<R extends Route>(app: FastifyInstance, services: Services, route: R, handler: Handler<R>): void {
  app.route({
    method: route.method,
    url: route.path,
    schema: schemaOf(route),
    ...(route.bodyLimit === undefined ? {} : { bodyLimit: route.bodyLimit }),
    ...(route.requestsPerMinute === undefined ? {} : { config: { rateLimit: { max: route.requestsPerMinute, timeWindow: '1 minute' } } }),
    onRequest: async (request, reply) => {
      const no = gate(route, request) ?? (await farFrom(services, route, request));
      return no ? sendProblem(reply, no) : undefined;
    },
    handler: async (request, reply) => {
      const gone = await disposedOf(services.database.read, route, request.params);
      if (gone) return sendProblem(reply, problemOf(gone));
      const answer = await handler(callOf(services, route, request, reply));
      if (isOutcome(answer)) {
        if (!answer.ok) return sendProblem(reply, problemOf(answer as Refused));
        return sendValue(route, reply, answer.value);
      }
      return sendValue(route, reply, answer);
    },
  });
}

function schemaOf(route: Route) {
  return {
    tags: [route.area],
    summary: route.summary,
    operationId: `${route.area}_${route.method.toLowerCase()}_${route.path.replace(/^\/api\//, '').replace(/[^\w]+/g, '_')}`,
    description: whoMay(route),
    ...(route.params ? { params: route.params } : {}),
    ...(route.query ? { querystring: route.query } : {}),
    ...(route.body ? { body: route.body } : {}),
    response: { [route.creates ? 201 : 200]: route.reply, ...(route.unwell ? { 503: route.reply } : {}), '4xx': problem, '5xx': problem },
  };
}

const whoMay = (route: Route): string =>
  [
    route.who === 'anyone'
      ? 'Anyone.'
      : route.who === 'signed_in'
        ? 'Anyone signed in.'
        : `Only: ${route.who.join(', ').replaceAll('_', ' ')}.`,
    route.creates ? 'Needs an Idempotency-Key header: sending it twice does it once.' : '',
    route.edits ? 'Needs an If-Match header with the version that was seen.' : '',
  ]
    .filter(Boolean)
    .join(' ');

function gate(route: Route, request: FastifyRequest) {
  if (comesFromElsewhere(request)) return badRequest('from-another-site', 'This request came from another site.');
  if (route.who !== 'anyone') {
    if (!request.session) return notSignedIn();
    const { roles, stage } = request.session;
    if (stage === 'factor_needed' && !route.beforeFactor) return factorNeeded();
    if (route.who !== 'signed_in' && !route.who.some((role) => roles.includes(role))) return notAllowed();
  }
  if (route.creates && !keyOf(request))
    return badRequest('key-missing', 'An Idempotency-Key header of 8 to 100 letters, digits or dashes is needed.');
  if (route.edits && versionOf(request) === null)
    return badRequest('version-missing', 'An If-Match header with the version that was seen is needed, for example "3".');
  return null;
}

const OF_JOBS: ReadonlySet<string | undefined> = new Set<ThingOfJob>([
  'job',
  'visit',
  'record',
  'report',
  'agreement',
  'signer',
  'test_item',
]);

/** What an inspector hears about a thing of a job to which he does not go, before anything of the request is read. */
async function farFrom({ database }: Services, { of }: Route, request: FastifyRequest) {
  const named = OF_JOBS.has(of) ? idParams.loose().safeParse(request.params) : undefined;
  if (!named?.success) return null;
  const may = await mayReach(database.read, { of: of as ThingOfJob, id: named.data.id, actor: actorOf(request) });
  return may.ok ? null : problemOf(may);
}

function keyOf(request: FastifyRequest): string | undefined {
  const key = request.headers['idempotency-key'];
  return typeof key === 'string' && /^[\w-]{8,100}$/.test(key) ? key : undefined;
}

function versionOf(request: FastifyRequest): number | null {
  const match = /^(?:W\/)?"?(\d{1,9})"?$/.exec(request.headers['if-match'] ?? '');
  return match ? Number(match[1]) : null;
}

const actorOf = ({ session }: FastifyRequest): Actor =>
  session ? { kind: 'person', id: session.personId, name: session.name, roles: session.roles } : { kind: 'service' };

function callOf<R extends Route>(services: Services, route: R, request: FastifyRequest, reply: FastifyReply): Call<R> {
  const actor = actorOf(request);
  const key = keyOf(request);
  const seen = versionOf(request);
  return {
    params: request.params as Call<R>['params'],
    query: request.query as Call<R>['query'],
    body: request.body as Call<R>['body'],
    version: seen ?? 0,
    actor,
    read: services.database.read,
    now: services.clock(),
    request,
    reply,
    rehearse: (act, input) => services.runner.rehearse(act, input, { actor }),
    act: (act, input) =>
      services.runner.run(act, input, {
        actor,
        ...(key && route.creates ? { key } : {}),
        ...(route.creates && seen !== null ? { seen } : {}),
      }),
  };
}

export const isOutcome = (answer: unknown): answer is Outcome<unknown> =>
  typeof answer === 'object' && answer !== null && 'ok' in answer && ('value' in answer || 'code' in answer);

function sendValue(route: Route, reply: FastifyReply, value: unknown): FastifyReply {
  const version = (value as { version?: unknown } | null)?.version;
  if (typeof version === 'number') reply.header('etag', `"${version}"`);
  return reply.code(route.unwell && reply.statusCode === 503 ? 503 : route.creates ? 201 : 200).send(value);
}
