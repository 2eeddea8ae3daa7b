// Jobs: quote, hold, confirm, and everything on the job page.
import type { FastifyInstance } from 'fastify';
import { jobsRoutes as routes } from '@backsight/contract/jobs';
import { cancelJob } from '@backsight/usecases/jobs/cancelJob';
import { addJobParty, changeParty, leaveJob, markHouse } from '@backsight/usecases/jobs/changeParties';
import { confirmJob } from '@backsight/usecases/jobs/confirmJob';
import { giveDiscount, previewDiscount } from '@backsight/usecases/jobs/giveDiscount';
import { holdJob } from '@backsight/usecases/jobs/holdJob';
import { issuePapersAgain } from '@backsight/usecases/jobs/issuePapersAgain';
import { learnFacts, previewFacts } from '@backsight/usecases/jobs/learnFacts';
import { readJob, readJobs } from '@backsight/usecases/jobs/readJobs';
import { lookUpParties, lookUpProperty, readQuote, readTowns } from '@backsight/usecases/jobs/readQuote';
import { settleNeed } from '@backsight/usecases/jobs/settleNeed';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function jobsApi(app: FastifyInstance, services: Services): void {
  const { publicUrl } = services.config;
  mount(app, services, routes.quote, ({ read, now, body, actor }) =>
    readQuote(read, now, body, actor.kind === 'person' ? actor.roles : []),
  );
  mount(app, services, routes.towns, ({ read }) => readTowns(read));
  mount(app, services, routes.lookUp, ({ read, query }) => lookUpProperty(read, query));
  mount(app, services, routes.parties, ({ read, query }) => lookUpParties(read, query.text));
  mount(app, services, routes.changeParty, ({ act, params, body }) => act(changeParty, { id: params.id, edit: body }));
  mount(app, services, routes.markParty, ({ act, params, body }) => act(changeParty, { id: params.id, edit: body }));
  mount(app, services, routes.markProperty, ({ act, params, body }) => act(markHouse, { id: params.id, ...body }));
  mount(app, services, routes.hold, ({ act, body }) => act(holdJob, body));
  mount(app, services, routes.list, ({ read, query, actor }) =>
    readJobs(read, {
      text: query.text,
      state: query.state ?? null,
      stillToGet: query.stillToGet === 'yes',
      cursor: query.cursor ?? null,
      limit: query.limit,
      actor,
    }),
  );
  mount(app, services, routes.one, ({ read, params, actor, now }) => readJob(read, { id: params.id, actor, now }));
  mount(app, services, routes.confirm, ({ act, params }) => act(confirmJob, { id: params.id, publicUrl }));
  mount(app, services, routes.papers, ({ act, params }) => act(issuePapersAgain, { id: params.id, publicUrl }));
  mount(app, services, routes.cancel, ({ act, params, version, body }) => act(cancelJob, { id: params.id, version, ...body }));
  mount(app, services, routes.need, ({ act, params, version, body }) =>
    act(settleNeed, { jobId: params.id, version, kind: params.kind, ...body }),
  );
  mount(app, services, routes.previewFacts, ({ read, now, params, body }) => previewFacts(read, now, params.id, body.facts));
  mount(app, services, routes.learnFacts, ({ act, params, version, body }) =>
    act(learnFacts, { id: params.id, version, facts: body.facts }),
  );
  mount(app, services, routes.previewDiscount, ({ read, params, body, actor }) =>
    previewDiscount(read, params.id, body, actor.kind === 'person' ? actor.roles : []),
  );
  mount(app, services, routes.giveDiscount, ({ act, params, version, body }) =>
    act(giveDiscount, { id: params.id, version, publicUrl, ...body }),
  );
  mount(app, services, routes.addParty, ({ act, params, body }) => act(addJobParty, { jobId: params.id, party: body }));
  mount(app, services, routes.removeParty, ({ act, params }) => act(leaveJob, { jobId: params.id, jobPartyId: params.jobPartyId }));
}
