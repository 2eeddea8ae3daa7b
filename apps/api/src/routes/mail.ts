// The outbox, the wordings of mail, contacts, and the insurer's certificates.
import type { FastifyInstance } from 'fastify';
import { mailRoutes as routes } from '@backsight/contract/mail';
import { certificateRoutes, contactRoutes } from '@backsight/contract/mail/contacts';
import { wordingRoutes } from '@backsight/contract/mail/wordings';
import { refuse } from '@backsight/domain/shared/outcome';
import {
  addCertificate,
  readCertificateFile,
  readCertificates,
  readInsuredBy,
  sendCertificate,
} from '@backsight/usecases/mail/certificates';
import { logContact, readContacts, readPeopleToCall } from '@backsight/usecases/mail/contacts';
import { clearBadAddress, noteMailBounce, sendMailAnew, sendTestMail, tryMailAgain } from '@backsight/usecases/mail/outbox';
import { readOutbox } from '@backsight/usecases/mail/readOutbox';
import { changeMailSettings, pauseMail, readMailSettings, resumeMail } from '@backsight/usecases/mail/settings';
import { changeWording, previewWording, readWordings, resetWording } from '@backsight/usecases/mail/wordings';
import { findPerson } from '@backsight/usecases/people/listPeople';
import { mount } from '../http/mount.ts';
import { serverShown } from '../http/mailer.ts';
import type { Services } from '../http/services.ts';

export function mailApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.list, ({ read, query }) =>
    readOutbox(read, { before: query.before ?? null, state: query.state ?? null, limit: query.limit }),
  );
  mount(app, services, routes.again, ({ act, params }) => act(tryMailAgain, params));
  mount(app, services, routes.bounce, ({ act, params, body }) => act(noteMailBounce, { ...params, ...body }));
  mount(app, services, routes.anew, ({ act, params, body }) => act(sendMailAnew, { ...params, ...body }));
  mount(app, services, routes.test, async ({ act, read, request }) => {
    const me = await findPerson(read, request.session!.personId);
    return me ? act(sendTestMail, { name: me.name, email: me.email }) : refuse('not-found', { thing: 'person' });
  });
  mount(app, services, routes.clearAddress, ({ act, body }) => act(clearBadAddress, body));
  mount(app, services, routes.pause, ({ act, body }) => act(pauseMail, body));
  mount(app, services, routes.resume, ({ act }) => act(resumeMail, {}));
  mount(app, services, routes.settings, async ({ read, now }) => ({
    ...(await readMailSettings(read, now)),
    server: serverShown(services.config.smtpUrl, services.config.plainHttp),
  }));
  mount(app, services, routes.change, ({ act, body, version }) => act(changeMailSettings, { version, edit: body }));
  wordings(app, services);
  contacts(app, services);
}

function wordings(app: FastifyInstance, services: Services): void {
  mount(app, services, wordingRoutes.list, ({ read }) => readWordings(read));
  mount(app, services, wordingRoutes.change, ({ act, params, body }) => act(changeWording, { ...params, ...body }));
  mount(app, services, wordingRoutes.reset, ({ act, params, body }) => act(resetWording, { ...params, ...body }));
  mount(app, services, wordingRoutes.preview, ({ read, params, body }) => previewWording(read, { ...params, ...body }));
}

function contacts(app: FastifyInstance, services: Services): void {
  const directory = services.config.dataDir;
  mount(app, services, contactRoutes.ofJob, ({ read, params, actor, now }) => readContacts(read, params.id, { actor, now }));
  mount(app, services, contactRoutes.toCall, ({ read, query, now }) => readPeopleToCall(read, { now, days: query.days }));
  mount(app, services, contactRoutes.log, ({ act, params, body }) => act(logContact, { ...body, jobId: params.id }));
  mount(app, services, certificateRoutes.list, ({ read }) => readCertificates(read));
  mount(app, services, certificateRoutes.policies, ({ read, now }) => readInsuredBy(read, now));
  mount(app, services, certificateRoutes.add, ({ act, body }) => act(addCertificate, { ...body, directory }));
  mount(app, services, certificateRoutes.send, ({ act, params, body }) => act(sendCertificate, { jobId: params.id, ...body }));
  mount(app, services, certificateRoutes.file, async ({ read, params, reply }) => {
    const file = await readCertificateFile(read, params.id, directory);
    if (!file.ok) return file;
    reply.type(file.value.mediaType).header('content-disposition', `attachment; filename="${file.value.name.replace(/[^\w. -]/g, '_')}"`);
    return file.value.bytes;
  });
}
