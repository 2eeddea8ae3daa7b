// Agreements and their signers, and the gate before a visit.
import type { FastifyInstance } from 'fastify';
import { agreementsRoutes as routes } from '@backsight/contract/agreements';
import { changeSigner, fileAuthority, readSignerFile } from '@backsight/usecases/agreements/changeSigner';
import { issueAgreementOfJob } from '@backsight/usecases/agreements/issue';
import { overrideGate } from '@backsight/usecases/agreements/overrideGate';
import { agreementPaper, lookUpFingerprint } from '@backsight/usecases/agreements/papers';
import { readAgreement, readGate, readIssuePreview, readKeptLinks } from '@backsight/usecases/agreements/reads';
import { recordPaperSignature } from '@backsight/usecases/agreements/recordPaperSignature';
import { revokeLink } from '@backsight/usecases/agreements/revokeLink';
import { sendAgain } from '@backsight/usecases/agreements/sendAgain';
import { refuse } from '@backsight/domain/shared/outcome';
import { mount } from '../http/mount.ts';
import { sendPdf } from '../http/pdf.ts';
import type { Services } from '../http/services.ts';

export function agreementsApi(app: FastifyInstance, services: Services): void {
  const { publicUrl, dataDir: directory } = services.config;
  mount(app, services, routes.ofJob, async ({ read, params }) => ({ agreement: await readAgreement(read, params.id) }));
  mount(app, services, routes.issue, ({ act, params }) => act(issueAgreementOfJob, { jobId: params.id, publicUrl }));
  mount(app, services, routes.sendAgain, ({ act, params, body }) => act(sendAgain, { ...body, signerId: params.id, publicUrl }));
  mount(app, services, routes.changeSigner, ({ act, params, body }) => act(changeSigner, { ...body, signerId: params.id }));
  mount(app, services, routes.signOnSite, ({ act, params, body, request }) =>
    act(recordPaperSignature, { ...body, signerId: params.id, device: request.headers['user-agent'] ?? '', directory }),
  );
  mount(app, services, routes.preview, ({ read, params, now }) => readIssuePreview(read, { jobId: params.id, now }));
  const mailLeaves = services.config.smtpUrl !== undefined;
  mount(app, services, routes.keptLinks, async ({ read, params }) => ({
    mailLeaves,
    links: mailLeaves ? [] : await readKeptLinks(read, params.id),
  }));
  mount(app, services, routes.revokeLink, ({ act, params }) => act(revokeLink, { signerId: params.id }));
  mount(app, services, routes.fileAuthority, ({ act, params, body }) => act(fileAuthority, { ...body, signerId: params.id, directory }));
  mount(app, services, routes.signerFile, async ({ read, params, reply }) => {
    const file = await readSignerFile(read, { signerId: params.id, which: params.which, directory });
    if (!file.ok) return file;
    reply.type(file.value.mediaType).header('content-disposition', 'inline');
    return file.value.bytes;
  });
  mount(
    app,
    services,
    routes.gate,
    async ({ read, params }) => (await readGate(read, params.id)) ?? refuse('not-found', { thing: 'visit' }),
  );
  mount(app, services, routes.overrideGate, ({ act, params, body }) => act(overrideGate, { ...body, visitId: params.id }));
  mount(app, services, routes.paper, ({ read, params, actor, reply }) => sendPdf(reply, agreementPaper(read, { id: params.id, actor })));
  mount(app, services, routes.fingerprint, ({ read, params }) => lookUpFingerprint(read, params.sha256));
}
