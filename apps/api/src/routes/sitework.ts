// The site record and the client's report.
import type { FastifyInstance } from 'fastify';
import { afterSealRoutes } from '@backsight/contract/sitework/afterSeal';
import { siteworkRoutes as routes } from '@backsight/contract/sitework';
import { aheadRoutes } from '@backsight/contract/sitework/ahead';
import { readBatch } from '@backsight/contract/sitework/batch';
import { doubleLookRoutes } from '@backsight/contract/sitework/doubleLooks';
import { registerRoutes } from '@backsight/contract/sitework/register';
import { siteworkPaperRoutes } from '@backsight/contract/sitework/papers';
import { photoRoutes } from '@backsight/contract/sitework/photos';
import { reportRoutes } from '@backsight/contract/sitework/reports';
import { giveOutRecord, readAfterSeal, supplementRecord } from '@backsight/usecases/sitework/afterSeal';
import { addPhoto, storePhoto } from '@backsight/usecases/sitework/addPhoto';
import { addSpoken, storeSpoken } from '@backsight/usecases/sitework/addSpoken';
import { addItem } from '@backsight/usecases/sitework/addItem';
import { daySheet } from '@backsight/usecases/sitework/daySheet';
import { reportPaper } from '@backsight/usecases/sitework/reportPaper';
import { draftReportOfJob, takeInReport } from '@backsight/usecases/sitework/addReport';
import { closeVisit } from '@backsight/usecases/sitework/closeVisit';
import { changeDoubleLooks, readDoubleLooks } from '@backsight/usecases/sitework/doubleLooks';
import { handOverReport } from '@backsight/usecases/sitework/handOverReport';
import { overrideHandOver } from '@backsight/usecases/sitework/overrideHandOver';
import { recordReportConsent } from '@backsight/usecases/sitework/reportConsent';
import { readRegister, registerTable } from '@backsight/usecases/sitework/reportRegister';
import { offerVisit } from '@backsight/usecases/sitework/offerVisit';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { readAhead } from '@backsight/usecases/sitework/readAhead';
import { readDay } from '@backsight/usecases/sitework/readDay';
import { readRecord, readSealedRecord } from '@backsight/usecases/sitework/readRecord';
import { openOriginal, readOriginal, readPhoto, readSpoken } from '@backsight/usecases/sitework/readPhoto';
import { readStand } from '@backsight/usecases/sitework/readStand';
import { readReportFile, readReports } from '@backsight/usecases/sitework/readReports';
import { readStart, readVisitsOfJob } from '@backsight/usecases/sitework/readStart';
import { recordPaper } from '@backsight/usecases/sitework/recordPaper';
import { recordEntries } from '@backsight/usecases/sitework/recordEntries';
import { sealRecord } from '@backsight/usecases/sitework/sealRecord';
import { mount } from '../http/mount.ts';
import { sendPdf } from '../http/pdf.ts';
import type { Services } from '../http/services.ts';

export function siteworkApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.day, ({ read, request, now }) => readDay(read, { personId: request.session!.personId, now }));
  mount(app, services, routes.start, ({ read, params, actor, now }) => readStart(read, { visitId: params.id, actor, now }));
  mount(app, services, routes.visits, ({ read, params, actor }) => readVisitsOfJob(read, { jobId: params.id, actor }));
  mount(app, services, routes.open, ({ act, params, body }) => act(openRecord, { ...body, visitId: params.id }));
  mount(app, services, routes.record, ({ read, params, actor }) => readRecord(read, { recordId: params.id, actor }));
  mount(app, services, routes.stand, ({ read, params, actor }) => readStand(read, { recordId: params.id, actor }));
  mount(app, services, routes.sealed, ({ read, params, actor }) => readSealedRecord(read, { recordId: params.id, actor }));
  mount(app, services, routes.addItem, ({ act, params, body }) => act(addItem, { ...body, recordId: params.id }));
  mount(app, services, routes.enter, ({ act, params, body }) =>
    act(recordEntries, { recordId: params.id, ...readBatch(body.entries), deviceId: body.deviceId, sentAt: body.sentAt }),
  );
  mount(app, services, aheadRoutes.ahead, ({ read, request, actor, now }) =>
    readAhead(read, { personId: request.session!.personId, actor, now }),
  );
  mount(app, services, aheadRoutes.offer, ({ act, params }) => act(offerVisit, { visitId: params.id }));
  mount(app, services, routes.end, ({ act, params, body }) => act(closeVisit, { recordId: params.id, ...body }));
  mount(app, services, routes.seal, ({ act, params, body }) => act(sealRecord, { recordId: params.id, ...body }));
  afterSealApi(app, services);
  doubleLookApi(app, services);
  paperApi(app, services);
  photoApi(app, services);
  reportApi(app, services);
}

function afterSealApi(app: FastifyInstance, services: Services): void {
  mount(app, services, afterSealRoutes.read, ({ read, params, actor }) => readAfterSeal(read, { recordId: params.id, actor }));
  mount(app, services, afterSealRoutes.paper, ({ read, params, actor, reply }) =>
    sendPdf(reply, recordPaper(read, { recordId: params.id, actor, directory: services.config.dataDir })),
  );
  mount(app, services, afterSealRoutes.supplement, ({ act, params, body }) => act(supplementRecord, { ...body, recordId: params.id }));
  mount(app, services, afterSealRoutes.giveOut, ({ act, params, body }) => act(giveOutRecord, { ...body, recordId: params.id }));
}

function doubleLookApi(app: FastifyInstance, services: Services): void {
  mount(app, services, doubleLookRoutes.read, ({ read }) => readDoubleLooks(read));
  mount(app, services, doubleLookRoutes.change, ({ act, version, body }) => act(changeDoubleLooks, { ...body, version }));
}

function paperApi(app: FastifyInstance, services: Services): void {
  mount(app, services, siteworkPaperRoutes.daySheet, ({ read, params, actor, now, reply }) =>
    sendPdf(reply, daySheet(read, now, { personId: params.id, day: params.day, actor })),
  );
  mount(app, services, siteworkPaperRoutes.report, ({ read, params, actor, reply }) =>
    sendPdf(reply, reportPaper(read, { reportId: params.id, actor })),
  );
}

function photoApi(app: FastifyInstance, services: Services): void {
  const directory = services.config.dataDir;
  mount(app, services, photoRoutes.add, async ({ act, read, params, body, actor }) => {
    const stored = await storePhoto(read, { ...body, recordId: params.id, actor, directory });
    return stored.ok ? act(addPhoto, stored.value) : stored;
  });
  mount(app, services, photoRoutes.copy, async ({ read, params, query, actor, reply }) => {
    const photo = await readPhoto(read, { recordId: params.id, photoId: params.photoId, small: query.size === 'small', actor, directory });
    if (!photo.ok) return photo;
    reply.type(photo.value.mediaType);
    return photo.value.bytes;
  });
  mount(app, services, photoRoutes.addSpoken, async ({ act, read, params, body, actor }) => {
    const stored = await storeSpoken(read, { ...body, recordId: params.id, actor, directory });
    return stored.ok ? act(addSpoken, stored.value) : stored;
  });
  mount(app, services, photoRoutes.spoken, async ({ read, params, actor, reply }) => {
    const note = await readSpoken(read, { recordId: params.id, photoId: params.photoId, actor, directory });
    if (!note.ok) return note;
    reply.type(note.value.mediaType);
    return note.value.bytes;
  });
  mount(app, services, photoRoutes.open, ({ act, params, body }) =>
    act(openOriginal, { ...body, recordId: params.id, photoId: params.photoId }),
  );
  mount(app, services, photoRoutes.original, async ({ read, params, query, actor, now, reply }) => {
    const asked = { recordId: params.id, photoId: params.photoId, openingId: query.opening, actor, directory, now };
    const file = await readOriginal(read, asked);
    if (!file.ok) return file;
    reply.type(file.value.mediaType).header('content-disposition', `attachment; filename="${file.value.name.replace(/[^\w. -]/g, '_')}"`);
    return file.value.bytes;
  });
}

function reportApi(app: FastifyInstance, services: Services): void {
  const directory = services.config.dataDir;
  mount(app, services, reportRoutes.list, ({ read, params, actor, now }) => readReports(read, { jobId: params.id, actor, now }));
  mount(app, services, reportRoutes.draft, ({ act, params, body }) => act(draftReportOfJob, { ...body, jobId: params.id }));
  mount(app, services, reportRoutes.takeIn, ({ act, params, body }) => act(takeInReport, { ...body, jobId: params.id, directory }));
  mount(app, services, reportRoutes.handOver, ({ act, params, body }) => act(handOverReport, { ...body, reportId: params.id, directory }));
  mount(app, services, registerRoutes.consent, ({ act, params, body }) => act(recordReportConsent, { ...body, jobId: params.id }));
  mount(app, services, registerRoutes.overrideHandOver, ({ act, params, body }) => act(overrideHandOver, { ...body, jobId: params.id }));
  mount(app, services, registerRoutes.register, ({ read, query }) => readRegister(read, { ...query, cursor: query.cursor ?? null }));
  mount(app, services, registerRoutes.registerCsv, async ({ read, query, now, reply }) => {
    reply.type('text/csv; charset=utf-8; header=present').header('content-disposition', 'attachment; filename="report-register.csv"');
    return registerTable(read, query, now);
  });
  mount(app, services, reportRoutes.file, async ({ read, params, actor, reply }) => {
    const file = await readReportFile(read, { reportId: params.id, actor, directory });
    if (!file.ok) return file;
    reply.type('application/pdf').header('content-disposition', `attachment; filename="${file.value.name.replace(/[^\w. -]/g, '_')}"`);
    return file.value.bytes;
  });
}
