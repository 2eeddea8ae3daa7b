// What people without a sign-in see after a decision: the private page of a letter, and the public page on how a complaint is handled.
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { ANSWERS } from '@backsight/contract/callbacks/after';
import { refusals } from '@backsight/contract/problem';
import { actAfterByLink, openAfterPage, type AfterAct } from '@backsight/usecases/callbacks/clientAfter';
import { readProcess } from '@backsight/usecases/callbacks/readProcess';
import { whomToCall } from '@backsight/usecases/firm/whomToCall';
import { PRIVATE, sendPage } from '../http/client/assets.ts';
import { afterPage, type AfterTyped } from '../http/client/after.ts';
import { endedLinkPage, troublePage, unknownLinkPage } from '../http/client/otherPages.ts';
import { processPage } from '../http/client/process.ts';
import type { Services } from '../http/services.ts';

const tokenOf = (request: FastifyRequest): string => String((request.params as { token?: unknown }).token ?? '');

function field(body: unknown, name: string): string {
  const value = typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
  return typeof value === 'string'
    ? value
        .slice(0, 4000)
        .replaceAll('\r\n', '\n')
        .replace(/[\u0000-\u0009\u000b-\u001f]/g, ' ')
    : '';
}

async function show(services: Services, request: FastifyRequest, reply: FastifyReply, typed: AfterTyped | null): Promise<FastifyReply> {
  const { read } = services.database;
  const opened = await openAfterPage(read, tokenOf(request), services.clock());
  if (opened === null) return sendPage(reply, 404, unknownLinkPage(await whomToCall(read)));
  return opened === 'ended'
    ? sendPage(reply, 410, endedLinkPage((await whomToCall(read))!, false))
    : sendPage(reply, typed ? 422 : 200, afterPage(opened, typed));
}

async function take(services: Services, request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const { body } = request;
  const [act, answer, words] = [field(body, 'act'), field(body, 'answer'), field(body, 'words')];
  const given: AfterAct | null =
    act === 'appeal'
      ? { act, words }
      : act === 'answer' && answer in ANSWERS
        ? { act, answer: answer as keyof typeof ANSWERS, words }
        : null;
  if (!given) return sendPage(reply, 400, troublePage('That could not be understood', 'Please go back and press one of the answers.'));
  const token = tokenOf(request);
  const parts = { reader: services.database.read, runner: services.runner, now: services.clock() };
  const outcome = await actAfterByLink(parts, token, given);
  if (outcome.ok)
    return reply
      .code(303)
      .headers({ ...PRIVATE, location: `/client/after/${token}` })
      .send();
  const { day } = outcome.about;
  const problem = refusals[outcome.code].sentence.replace('{day}', String(day ?? ''));
  return show(services, request, reply, { act, words, problem });
}

export function afterPages(app: FastifyInstance, services: Services): void {
  const options = { logLevel: 'error' as const, config: { rateLimit: { max: 30, timeWindow: '1 minute' } }, schema: { hide: true } };
  app.get('/client/after/:token', options, (request, reply) => show(services, request, reply, null));
  app.post('/client/after/:token', options, (request, reply) => take(services, request, reply));
  app.get('/complaints', options, async (_request, reply) => {
    const process = await readProcess(services.database.read, services.clock());
    return process
      ? sendPage(reply, 200, processPage(process))
      : sendPage(reply, 404, troublePage('Not set up yet', 'This firm has not been set up yet.'));
  });
}
