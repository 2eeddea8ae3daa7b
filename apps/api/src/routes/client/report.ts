// The report of a problem at /client/:token/report: the page, and the form as a browser sends it at once, photos and all.
import { randomUUID } from 'node:crypto';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { whoseLink } from '@backsight/usecases/agreements/clientPage';
import { addPhotoAsClient } from '@backsight/usecases/callbacks/callbackPhotos';
import { reportAsClient } from '@backsight/usecases/callbacks/reportByLink';
import { readReportPage } from '@backsight/usecases/callbacks/reportPage';
import { problemOf } from '../../http/problem.ts';
import { harmIn } from '../../http/scanFiles.ts';
import type { Services } from '../../http/services.ts';
import { PRIVATE, sendPage } from '../../http/client/assets.ts';
import { MOST_FORM_MEGABYTES, reportPage, type Untaken } from '../../http/client/report.ts';
import { isReportField, type TypedReport } from '../../http/client/reportFields.ts';
import { checkedReport, photosIn, readForm, typedReport } from '../../http/client/reportForm.ts';

type Answer = (request: FastifyRequest, reply: FastifyReply) => Promise<FastifyReply>;
/** What the pages of a private link share. `otherwise` answers for a link that opens nothing. */
export type OfLink = {
  options: object;
  preHandler: (request: FastifyRequest, reply: FastifyReply) => Promise<void>;
  otherwise: Answer;
};
type Shown = { typed?: TypedReport; sent?: number; untaken?: Untaken };

const tokenOf = (request: FastifyRequest): string => String((request.params as { token?: unknown }).token ?? '');

/** What the service calls otherwise than the form. */
const SAME: Record<string, string> = { discoveredOn: 'since', remedySought: 'hope' };

function typedAgain(typed: ReturnType<typeof typedReport>, refused: Parameters<typeof problemOf>[0]): TypedReport {
  const says = problemOf(refused).title;
  const field = SAME[refused.field ?? ''] ?? refused.field ?? '';
  if (isReportField(field)) return { ...typed, problem: '', wrong: { [field]: says } };
  const problem = refused.code === 'key-reused' ? 'You sent this before. Please open this page anew to send something else.' : says;
  return { ...typed, problem, wrong: {} };
}

/** Hangs page and form. Files come only by a link that opens something: no other is read. */
export function reportPages(app: FastifyInstance, services: Services, { options, preHandler, otherwise }: OfLink): void {
  const { read } = services.database;
  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown): Promise<FastifyReply> => {
    const now = services.clock();
    const whose = await whoseLink(read, tokenOf(request), now);
    if (!whose.ok) return otherwise(request, reply);
    const sent = shown.sent ?? (Number((request.query as { sent?: unknown }).sent) || null);
    const page = await readReportPage(read, { ...whose.value, now });
    const mailLeaves = services.config.smtpUrl !== undefined;
    const at = { typed: shown.typed ?? null, sent, token: tokenOf(request), id: randomUUID(), untaken: shown.untaken ?? [], mailLeaves };
    return sendPage(reply, shown.typed || shown.untaken ? 422 : 200, reportPage(page, at));
  };
  const take: Answer = async (request, reply) => {
    const [typed, token] = [typedReport(request.body), tokenOf(request)];
    const checked = checkedReport(typed, token);
    if ('problem' in checked) return show(request, reply, { typed: { ...typed, ...checked } });
    const whose = await whoseLink(read, token, services.clock());
    if (!whose.ok) return otherwise(request, reply);
    const { token: _, ...report } = checked.report;
    const outcome = await reportAsClient(services.runner, { ...report, ...whose.value }, report.id);
    if (!outcome.ok) return show(request, reply, { typed: typedAgain(typed, outcome) });
    const untaken: { name: string; reason: string }[] = [];
    for (const photo of await photosIn(request.body, report.id)) {
      const harm = await harmIn(services, request, photo);
      if (harm) {
        untaken.push({ name: photo.name, reason: harm.title });
        continue;
      }
      const given = { ...photo, reportId: report.id, whose: whose.value, directory: services.config.dataDir };
      const added = await addPhotoAsClient({ reader: read, runner: services.runner }, given);
      if (!added.ok) untaken.push({ name: photo.name, reason: problemOf(added).title });
    }
    if (untaken.length > 0) return show(request, reply, { sent: outcome.value.number, untaken });
    const location = `/client/${token}/report?sent=${outcome.value.number}#sent`;
    return reply
      .code(303)
      .headers({ ...PRIVATE, location })
      .send();
  };
  app.addContentTypeParser('multipart/form-data', { parseAs: 'buffer' }, (request: FastifyRequest, body: Buffer) =>
    readForm(body, request.headers['content-type']!),
  );
  app.get('/client/:token/report', { ...options, preHandler }, (request, reply) => show(request, reply, {}));
  const onRequest = async (request: FastifyRequest, reply: FastifyReply): Promise<void> => {
    if (!(await whoseLink(read, tokenOf(request), services.clock())).ok) await otherwise(request, reply);
  };
  app.post('/client/:token/report', { ...options, bodyLimit: MOST_FORM_MEGABYTES * 1024 * 1024, onRequest, preHandler }, take);
}
