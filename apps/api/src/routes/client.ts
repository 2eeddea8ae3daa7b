// The client's private page at /client/:token. The token is the only key; it opens one agreement and nothing else.
import { randomBytes } from 'node:crypto';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { refusals } from '@backsight/contract/problem';
import { openLink } from '@backsight/usecases/agreements/clientPage';
import { signAsClient } from '@backsight/usecases/agreements/signByLink';
import { agreementPage, cancelledPage, endedLinkPage, troublePage, unknownLinkPage, type Typed } from '../http/client/agreement.ts';
import { STYLE } from '../http/client/style.ts';
import type { Services } from '../http/services.ts';

const send = (reply: FastifyReply, status: number, page: string): FastifyReply =>
  reply
    .code(status)
    .headers({ 'cache-control': 'no-store', 'referrer-policy': 'no-referrer', 'x-robots-tag': 'noindex' })
    .type('text/html; charset=utf-8')
    .send(page);

const tokenOf = (request: FastifyRequest): string => String((request.params as { token?: unknown }).token ?? '');

/** One field of a form; a field sent twice or not at all is empty. */
const field = (body: unknown, name: string): string => {
  const value = typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
  return typeof value === 'string' ? value.slice(0, 400).replace(/[\u0000-\u001f]/g, ' ') : '';
};

async function show(
  services: Services,
  request: FastifyRequest,
  reply: FastifyReply,
  typed: Typed | null,
  status = 200,
): Promise<FastifyReply> {
  const opened = await openLink(services.database.read, tokenOf(request), services.clock());
  if (opened.state === 'unknown') return send(reply, 404, unknownLinkPage());
  if (opened.state === 'cancelled') return send(reply, 410, cancelledPage(opened));
  if (opened.state === 'ended') return send(reply, 410, endedLinkPage(opened.firm, opened.firmPhone));
  return send(reply, status, agreementPage(opened.page, typed));
}

async function sign(services: Services, request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const { body } = request;
  const given = { name: field(body, 'name'), read: field(body, 'read') === 'yes', consent: field(body, 'consent') === 'yes' };
  const device = request.headers['user-agent'] ?? 'unknown';
  const outcome = await signAsClient(
    { reader: services.database.read, runner: services.runner },
    { ...given, sha256: field(body, 'sha256'), token: tokenOf(request), device, ip: request.ip },
  );
  if (outcome.ok)
    return reply
      .code(303)
      .headers({ 'cache-control': 'no-store', 'referrer-policy': 'no-referrer', location: `/client/${tokenOf(request)}` })
      .send();
  const changed = outcome.code === 'agreement-changed';
  const typed = {
    ...given,
    read: given.read && !changed,
    problem: refusals[outcome.code].sentence,
    ...(outcome.field ? { field: outcome.field } : {}),
  };
  return show(services, request, reply, typed, changed ? 409 : 422);
}

/** Hangs the page, its form and its style. Errors become pages, and the address with the token is never logged. */
export function clientPages(app: FastifyInstance, services: Services): void {
  app.setErrorHandler((error: { statusCode?: number; code?: string; name?: string }, request, reply) => {
    const status = error.statusCode ?? 500;
    if (status < 500)
      return send(reply, status, troublePage('That could not be understood', 'Please go back and try again, or call the office.'));
    const reference = randomBytes(5).toString('hex');
    request.log.error({ err: error, reference }, 'error inside the service');
    return send(
      reply,
      500,
      troublePage('Something went wrong', `Nothing was saved. Please try again in a moment; reference ${reference}.`),
    );
  });
  const options = { logLevel: 'error' as const, config: { rateLimit: { max: 60, timeWindow: '1 minute' } }, schema: { hide: true } };
  app.get('/client/:token', options, (request, reply) => show(services, request, reply, null));
  app.post('/client/:token', { ...options, bodyLimit: 16_384 }, (request, reply) => sign(services, request, reply));
  app.get('/client-page/style.css', { schema: { hide: true } }, (_request, reply) =>
    reply.header('cache-control', 'public, max-age=3600').type('text/css; charset=utf-8').send(STYLE),
  );
}
