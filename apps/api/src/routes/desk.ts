// The rest of the desk: how visits ended, and what becomes of their jobs.
import type { FastifyInstance } from 'fastify';
import { deskRoutes } from '@backsight/contract/jobs/desk';
import { lateRoutes } from '@backsight/contract/schedule/late';
import { endingRoutes } from '@backsight/contract/sitework/endings';
import { testItemRoutes } from '@backsight/contract/sitework/testItems';
import { noteAccess, readWayIn } from '@backsight/usecases/jobs/access';
import { noteAttendance } from '@backsight/usecases/jobs/attendance';
import { changeDeskRules, readDeskRules } from '@backsight/usecases/firm/deskRules';
import { bookAgain } from '@backsight/usecases/jobs/bookAgain';
import { answerReportOwed, chargeEnding } from '@backsight/usecases/jobs/decideEnding';
import { bookLook, declineLook } from '@backsight/usecases/jobs/laterLooks';
import { readDesk } from '@backsight/usecases/jobs/readDesk';
import { previewLate, runLate } from '@backsight/usecases/schedule/runLate';
import { endVisitEarly, readBeforeEnding, readEndingPhoto } from '@backsight/usecases/sitework/endVisitEarly';
import { placeTestItem, readTestItems, stepTestItem } from '@backsight/usecases/sitework/testItems';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function deskApi(app: FastifyInstance, services: Services): void {
  const { publicUrl, dataDir: directory } = services.config;
  mount(app, services, endingRoutes.end, ({ act, params, body }) => act(endVisitEarly, { ...body, visitId: params.id, directory }));
  mount(app, services, endingRoutes.about, ({ read, params, actor }) => readBeforeEnding(read, { visitId: params.id, actor }));
  mount(app, services, endingRoutes.photo, async ({ read, params, actor, reply }) => {
    const photo = await readEndingPhoto(read, { visitId: params.id, actor, directory });
    if (!photo.ok) return photo;
    reply.type(photo.value.mediaType);
    return photo.value.bytes;
  });
  mount(app, services, testItemRoutes.list, ({ read, params, actor, now }) => readTestItems(read, { jobId: params.id, actor, now }));
  mount(app, services, testItemRoutes.place, ({ act, params, body }) => act(placeTestItem, { ...body, jobId: params.id }));
  mount(app, services, testItemRoutes.step, ({ act, params, body }) => act(stepTestItem, { ...body, itemId: params.id }));
  mount(app, services, lateRoutes.preview, ({ read, params, query, actor, now }) =>
    previewLate(read, { visitId: params.id, minutes: query.minutes, actor, now }),
  );
  mount(app, services, lateRoutes.say, ({ act, params, body }) => act(runLate, { ...body, visitId: params.id }));
  mount(app, services, deskRoutes.rules, ({ read }) => readDeskRules(read));
  mount(app, services, deskRoutes.changeRules, ({ act, version, body }) => act(changeDeskRules, { version, rules: body }));
  mount(app, services, deskRoutes.desk, ({ read, params, actor, now }) => readDesk(read, { id: params.id, actor, now }));
  mount(app, services, deskRoutes.attendance, ({ act, params, version, body }) => act(noteAttendance, { id: params.id, version, ...body }));
  mount(app, services, deskRoutes.access, ({ act, params, version, body }) => act(noteAccess, { id: params.id, version, ...body }));
  mount(app, services, deskRoutes.wayIn, ({ read, params, actor, now }) => readWayIn(read, { visitId: params.id, actor, now }));
  mount(app, services, deskRoutes.bookLook, ({ act, params, body }) => act(bookLook, { id: params.id, ...body }));
  mount(app, services, deskRoutes.declineLook, ({ act, params }) => act(declineLook, { id: params.id }));
  mount(app, services, deskRoutes.chargeEnding, ({ act, params, version, body }) => act(chargeEnding, { id: params.id, version, ...body }));
  mount(app, services, deskRoutes.reportOwed, ({ act, params, version, body }) =>
    act(answerReportOwed, { id: params.id, version, ...body }),
  );
  mount(app, services, deskRoutes.bookAgain, ({ act, params, version, body }) =>
    act(bookAgain, { id: params.id, version, publicUrl, ...body }),
  );
}
