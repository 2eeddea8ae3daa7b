// A callback about the freezer, over HTTP, as far as a test needs it.
import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import type { CastName } from '../../support/cast.ts';
import type { Answer, TestApi } from '../../support/http.ts';
import { siteJob, type SiteJob } from '../../support/siteJob.ts';
import { recordOf, start } from '../sitework/support.ts';

export type Visited = SiteJob & { recordId: string };

/** A job that anna and ben have visited: the record is open and its package issued. */
export async function visited(api: TestApi): Promise<Visited> {
  const job = await siteJob(api, { startsAt: api.clock.now });
  const recordId = await start(api, job.visitId, 'anna', [{ kind: 'ground_fault_device', label: 'Upstairs bath' }]);
  expect((await recordOf(api, 'anna', recordId)).steps.length).toBeGreaterThan(10);
  return { ...job, recordId };
}

export const intake = (job: SiteJob, more: Record<string, unknown> = {}) => ({
  id: randomUUID(),
  jobId: job.jobId,
  partyId: job.clientId,
  speaker: 'client',
  kind: 'missed',
  safety: false,
  system: 'electrical',
  place: 'garage',
  remedySought: 'the thawed food',
  words: 'The garage freezer thawed. Its receptacle has no power: the ground-fault device in the upstairs bath was tripped.',
  ...more,
});

export async function received(api: TestApi, job: SiteJob, more: Record<string, unknown> = {}): Promise<string> {
  const body = intake(job, more);
  const answer = await api.send('office', 'POST', '/api/callbacks', { body });
  expect(answer.status, JSON.stringify(answer.body)).toBe(201);
  return body.id;
}

/** Sends an act on a callback. */
export const on = (api: TestApi, who: CastName, id: string, act: string, body: unknown = {}): Promise<Answer> =>
  api.send(who, 'POST', `/api/callbacks/${id}/${act}`, { body });

/** Received, acknowledged and traced to the ground-fault step. */
export async function concluded(api: TestApi, job: SiteJob, more: Record<string, unknown> = {}): Promise<string> {
  const id = await received(api, job);
  await on(api, 'office', id, 'acknowledge');
  const answer = await on(api, 'lead', id, 'conclusion', {
    conclusionId: randomUUID(),
    cause: 'not_in_procedure',
    stepKey: 'ground-fault-trip-reset',
    words: 'No power check of the receptacles downstream.',
    ...more,
  });
  expect(answer.status, JSON.stringify(answer.body)).toBe(201);
  return id;
}

export async function proposed(api: TestApi, who: CastName, id: string, cents: number, kind = 'goodwill_payment'): Promise<string> {
  const remedyId = randomUUID();
  const answer = await on(api, who, id, 'remedies', { remedyId, kind, cents, payee: 'Paula Prior', words: 'Food from the freezer' });
  expect(answer.status, JSON.stringify(answer.body)).toBe(201);
  return remedyId;
}

export const remedy = (api: TestApi, who: CastName, remedyId: string, act: string, body: unknown): Promise<Answer> =>
  api.send(who, 'POST', `/api/remedies/${remedyId}/${act}`, { body });

/** The secret end of a fresh private link, which ends the one before it. */
export async function reportLink(api: TestApi, { jobId, clientId }: Visited): Promise<string> {
  api.clock.now = new Date(api.clock.now.getTime() + 1000);
  const sent = await api.send('office', 'POST', `/api/callbacks/jobs/${jobId}/link`, { body: { partyId: clientId } });
  expect(sent.status, JSON.stringify(sent.body)).toBe(201);
  const [mail] = await api.database.read.rows<{ body: string }>(
    `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND kind = 'report_link' ORDER BY recorded_at DESC, id DESC LIMIT 1`,
    [jobId],
  );
  return /\/client\/([\w-]{43})\/report/.exec(mail!.body)![1]!;
}

/** What a client reports by the link. */
export const ownReport = (token: string, more: Record<string, unknown>) => ({
  ...{ token, id: randomUUID(), matter: 'missed', system: 'electrical', place: 'garage', dangers: [], hope: 'the food' },
  words: 'The freezer thawed.',
  ...more,
});
