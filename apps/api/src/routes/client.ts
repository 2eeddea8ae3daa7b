// The client's private page at /client/:token. The token is the only key; it opens one agreement and nothing else.
import { randomBytes } from 'node:crypto';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { refusals } from '@backsight/contract/problem';
import type { Refusal } from '@backsight/domain/shared/outcome';
import { answerAsClient } from '@backsight/usecases/agreements/answerByLink';
import { openLink, openPdf } from '@backsight/usecases/agreements/clientPage';
import { whomToCall } from '@backsight/usecases/firm/whomToCall';
import { signAsClient } from '@backsight/usecases/agreements/signByLink';
import { outageOf } from '@backsight/usecases/run';
import { agreementPage } from '../http/client/agreement.ts';
import { PRIVATE, sendPage, serveText } from '../http/client/assets.ts';
import { KEEP_SCRIPT } from '../http/client/keepScript.ts';
import { cancelledPage, endedLinkPage, troublePage, unknownLinkPage } from '../http/client/otherPages.ts';
import { REPORT_SCRIPT } from '../http/client/reportScript.ts';
import { isSignField, type Typed } from '../http/client/signForm.ts';
import { LONGEST_DRAWING, SCRIPT } from '../http/client/script.ts';
import { STYLE } from '../http/client/style.ts';
import { OUTAGES, RETRY_AFTER, sayOutage } from '../http/problem.ts';
import type { Services } from '../http/services.ts';
import { reportPages } from './client/report.ts';

const tokenOf = (request: FastifyRequest): string => String((request.params as { token?: unknown }).token ?? '');

/** One field of a form; a field sent twice or not at all is empty. */
const field = (body: unknown, name: string, longest = 400): string => {
  const value = typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
  return typeof value === 'string' ? value.slice(0, longest).replace(/[\u0000-\u001f]/g, ' ') : '';
};

async function show(
  services: Services,
  request: FastifyRequest,
  reply: FastifyReply,
  typed: Typed | null,
  status = 200,
): Promise<FastifyReply> {
  const opened = await openLink(services.database.read, tokenOf(request), services.clock());
  switch (opened.state) {
    case 'unknown':
      return sendPage(reply, 404, unknownLinkPage(await whomToCall(services.database.read)));
    case 'cancelled':
      return sendPage(reply, 410, cancelledPage(opened));
    case 'open':
      return sendPage(reply, status, agreementPage(opened.page, typed, tokenOf(request)));
    default:
      return sendPage(reply, 410, endedLinkPage(opened, opened.state === 'revoked'));
  }
}

const LONG: Record<string, number> = { strokes: LONGEST_DRAWING + 1, reason: 1000 };

/** What was typed, as the act takes it and as the page shows it again. */
function typedIn(body: unknown): Omit<Typed, 'problem' | 'wrong'> {
  const text = (name: string) => field(body, name, LONG[name]);
  return {
    name: text('name'),
    read: text('read') === 'yes',
    consent: text('consent') === 'yes',
    word: text('word'),
    strokes: text('how') === 'drawn' ? text('strokes') || '[]' : '',
    interpreter: text('interpreter'),
    reason: text('reason'),
  };
}

/** Sentences by field, and the one that is about no field. */
function faultsIn(refusal: Refusal): Pick<Typed, 'problem' | 'wrong'> {
  const all = [refusal, ...(refusal.also ?? [])].map(({ code, field: at }) => ({ at, says: refusals[code].sentence }));
  return {
    problem: all.find(({ at }) => !isSignField(at))?.says ?? '',
    wrong: Object.fromEntries(all.flatMap(({ at, says }) => (isSignField(at) ? [[at, says]] : []))),
  };
}

const back = (request: FastifyRequest, reply: FastifyReply, to = ''): FastifyReply =>
  reply
    .code(303)
    .headers({ ...PRIVATE, location: `/client/${tokenOf(request)}${to}` })
    .send();

async function take(services: Services, request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const { body } = request;
  const given = typedIn(body);
  const parts = { reader: services.database.read, runner: services.runner, now: services.clock() };
  const token = tokenOf(request);
  const act = field(body, 'act');
  const { reason, ...signing } = given;
  const outcome =
    act === 'decline' || act === 'paper'
      ? await answerAsClient(parts, { token, kind: act === 'decline' ? 'declined' : 'wants_paper', reason })
      : await signAsClient(parts, {
          ...signing,
          sha256: field(body, 'sha256'),
          token,
          device: request.headers['user-agent'] ?? 'unknown',
          ip: request.ip,
          directory: services.config.dataDir,
        });
  if (outcome.ok) return back(request, reply);
  const changed = outcome.code === 'agreement-changed';
  const typed = {
    ...given,
    read: given.read && !changed,
    ...faultsIn(outcome),
  };
  return show(services, request, reply, typed, changed ? 409 : 422);
}

async function pdf(services: Services, request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const file = await openPdf(services.database.read, tokenOf(request), services.clock());
  if (!file) return show(services, request, reply, null);
  return reply
    .headers(PRIVATE)
    .header('content-disposition', `inline; filename="${file.name}"`)
    .type('application/pdf')
    .send(Buffer.from(file.bytes));
}

/** One link opens its page at most so often in a minute, from whatever address; besides, each address has a limit of its own. */
export const LINK_REQUESTS = 40;

function perLinkLimit(app: FastifyInstance) {
  const count = app.createRateLimit({
    max: LINK_REQUESTS,
    timeWindow: '1 minute',
    keyGenerator: (request) => `link ${tokenOf(request).slice(0, 43)}`,
    allowList: [],
  });
  return async (request: FastifyRequest, reply: FastifyReply): Promise<void> => {
    const limit = await count(request);
    if (!limit.isAllowed && limit.isExceeded)
      await sendPage(reply, 429, troublePage('Too many tries', 'Please wait a minute, then try again. Nothing is lost.'));
  };
}

/** Hangs the page, its form and its style. Errors become pages, and the address with the token is never logged. */
export function clientPages(app: FastifyInstance, services: Services): void {
  app.setErrorHandler((error: { statusCode?: number; code?: string; name?: string }, request, reply) => {
    const status = error.statusCode ?? 500;
    if (status === 429)
      return sendPage(reply, 429, troublePage('Too many tries', 'Please wait a minute, then try again. Nothing is lost.'));
    if (status < 500)
      return sendPage(reply, status, troublePage('That could not be understood', 'Please go back and try again, or call the office.'));
    const reference = randomBytes(5).toString('hex');
    request.log.error({ err: error, reference }, 'error inside the service');
    const outage = outageOf(error);
    if (outage) {
      const page = troublePage('Please try again in a moment', `${sayOutage(request, outage)} Reference ${reference}.`);
      return sendPage(reply.header('retry-after', RETRY_AFTER), OUTAGES[outage].status, page);
    }
    return sendPage(
      reply,
      500,
      troublePage('Something went wrong', `Nothing was saved. Please try again in a moment; reference ${reference}.`),
    );
  });
  const options = { logLevel: 'error' as const, config: { rateLimit: { max: 60, timeWindow: '1 minute' } }, schema: { hide: true } };
  const perLink = perLinkLimit(app);
  app.get('/client/:token', { ...options, preHandler: perLink }, (request, reply) => show(services, request, reply, null));
  app.get('/client/:token/agreement.pdf', { ...options, preHandler: perLink }, (request, reply) => pdf(services, request, reply));
  app.post('/client/:token', { ...options, bodyLimit: 2 * LONGEST_DRAWING + 32_768, preHandler: perLink }, (request, reply) =>
    take(services, request, reply),
  );
  reportPages(app, services, { options, preHandler: perLink, otherwise: (request, reply) => show(services, request, reply, null) });
  serveText(app, '/client-page/sign.js', 'text/javascript', SCRIPT);
  serveText(app, '/client-page/report.js', 'text/javascript', REPORT_SCRIPT);
  serveText(app, '/client-page/keep.js', 'text/javascript', KEEP_SCRIPT);
  serveText(app, '/client-page/style.css', 'text/css', STYLE);
}
