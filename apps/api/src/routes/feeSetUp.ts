// What the firm charges and offers, prices asked, and what its people are paid.
import type { FastifyInstance } from 'fastify';
import { payRoutes } from '@backsight/contract/fees/pay';
import { scheduleRoutes } from '@backsight/contract/fees/schedules';
import { inquiryRoutes } from '@backsight/contract/jobs/inquiries';
import { serviceRoutes } from '@backsight/contract/jobs/services';
import { waiverRoutes } from '@backsight/contract/jobs/waivers';
import { exportPay, readPay, readPayRules, setPayRule } from '@backsight/usecases/fees/pay';
import { compareOverJobs, readSchedule, readSchedules, tryRules } from '@backsight/usecases/fees/readSchedules';
import { changeSchedule, draftSchedule, dropSchedule, putScheduleInForce } from '@backsight/usecases/fees/schedules';
import { endInquiry, followUp, readInquiries, readInquiry, saveInquiry } from '@backsight/usecases/jobs/inquiries';
import { readWaivers } from '@backsight/usecases/jobs/readWaivers';
import { changeMinutes, changeVisitKind, readMinutes } from '@backsight/usecases/jobs/minutes';
import { createService, editService, readServices } from '@backsight/usecases/jobs/services';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function feeSetUpApi(app: FastifyInstance, services: Services): void {
  schedules(app, services);
  pay(app, services);
  mount(app, services, serviceRoutes.list, ({ read }) => readServices(read));
  mount(app, services, serviceRoutes.add, ({ act, body }) => act(createService, body));
  mount(app, services, serviceRoutes.change, ({ act, params, version, body }) => act(editService, { key: params.key, version, ...body }));
  mount(app, services, serviceRoutes.minutes, ({ read }) => readMinutes(read));
  mount(app, services, serviceRoutes.changeMinutes, ({ act, version, body }) => act(changeMinutes, { version, ...body }));
  mount(app, services, serviceRoutes.changeKind, ({ act, params, version, body }) =>
    act(changeVisitKind, { key: params.key, version, ...body }),
  );
  mount(app, services, waiverRoutes.list, ({ read }) => readWaivers(read));
  mount(app, services, inquiryRoutes.list, ({ read, now }) => readInquiries(read, now));
  mount(app, services, inquiryRoutes.one, ({ read, params }) => readInquiry(read, params.id));
  mount(app, services, inquiryRoutes.save, ({ act, body }) => act(saveInquiry, body));
  mount(app, services, inquiryRoutes.followUp, ({ act, params, version, body }) => act(followUp, { id: params.id, version, ...body }));
  mount(app, services, inquiryRoutes.close, ({ act, params, version, body }) => act(endInquiry, { id: params.id, version, ...body }));
}

function schedules(app: FastifyInstance, services: Services): void {
  mount(app, services, scheduleRoutes.list, ({ read, now }) => readSchedules(read, now));
  mount(app, services, scheduleRoutes.one, ({ read, params, query, now }) =>
    readSchedule(read, { id: params.id, besideId: query.beside, now }),
  );
  mount(app, services, scheduleRoutes.draft, ({ act, body }) => act(draftSchedule, body));
  mount(app, services, scheduleRoutes.change, ({ act, params, version, body }) => act(changeSchedule, { id: params.id, version, ...body }));
  mount(app, services, scheduleRoutes.putInForce, ({ act, params, version, body }) =>
    act(putScheduleInForce, { id: params.id, version, ...body }),
  );
  mount(app, services, scheduleRoutes.drop, ({ act, params, version }) => act(dropSchedule, { id: params.id, version }));
  mount(app, services, scheduleRoutes.whatIf, ({ read, now, body }) => tryRules(read, now, body));
  mount(app, services, scheduleRoutes.overJobs, ({ read, params, query }) =>
    compareOverJobs(read, { id: params.id, besideId: query.beside, from: query.from, until: query.until }),
  );
}

/** The owner sees everybody's pay; everybody else his own, whomever he asks for. */
const whose = (actor: Actor, asked: string | undefined): string | null =>
  actor.kind === 'person' && !actor.roles.includes('owner') ? actor.id : (asked ?? null);

function pay(app: FastifyInstance, services: Services): void {
  mount(app, services, payRoutes.rules, ({ read }) => readPayRules(read));
  mount(app, services, payRoutes.set, ({ act, body }) => act(setPayRule, body));
  mount(app, services, payRoutes.statement, ({ read, query, actor }) =>
    readPay(read, { ...query, personId: whose(actor, query.personId) }),
  );
  mount(app, services, payRoutes.csv, async ({ read, query, actor, reply }) => {
    const text = await exportPay(read, { ...query, personId: whose(actor, query.personId) });
    if (!text.ok) return text;
    reply
      .type('text/csv; charset=utf-8; header=present')
      .header('content-disposition', `attachment; filename="pay-${query.from}-${query.until}.csv"`);
    return text.value;
  });
}
