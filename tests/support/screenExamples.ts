// One example of everything that a screen is about, made through the acts of the service, and the addresses where it is seen.
import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { draftText } from '@backsight/usecases/agreements/texts';
import { issueAgreementOfJob } from '@backsight/usecases/agreements/issue';
import { askAccount } from '@backsight/usecases/callbacks/accounts';
import { concludeCallback } from '@backsight/usecases/callbacks/concludeCallback';
import { createAction } from '@backsight/usecases/callbacks/correctiveActions';
import { acknowledgeCallback } from '@backsight/usecases/callbacks/moveCallback';
import { receiveCallback } from '@backsight/usecases/callbacks/receiveCallback';
import { markSafety } from '@backsight/usecases/callbacks/safety';
import { issueInvoiceOfJob } from '@backsight/usecases/fees/issue';
import { takeFile } from '@backsight/usecases/firm/bringIn/takeFile';
import { draftRevision } from '@backsight/usecases/procedures/drafts';
import type { Act } from '@backsight/usecases/run';
import { askDayPlan } from '@backsight/usecases/schedule/askPlan';
import { askWhatIf } from '@backsight/usecases/schedule/whatIf';
import { openRecord } from '@backsight/usecases/sitework/openRecord';
import { as, CAST, type CastName } from './cast.ts';
import type { TestService } from './database.ts';
import { paidJob } from './paidJob.ts';
import { siteJob, type SiteJob } from './siteJob.ts';
import { bookedVisit } from './visits.ts';

type Addresses = Partial<Record<CastName, string[]>>;
type Tools = { service: TestService; done: <In, Out>(act: Act<In, Out>, input: In, who: CastName) => Promise<void> };

/** Needs cast and starter set. The owner sees everything that he may; the others what only they see. */
export async function screenExamples(service: TestService): Promise<Addresses> {
  const done: Tools['done'] = async (act, input, who) => {
    const outcome = await service.runner.run(act, input, { actor: as(who) });
    expect(outcome.ok, `${act.operation}: ${JSON.stringify(outcome)}`).toBe(true);
  };
  const tools = { service, done };
  const at = (hours: number) => new Date(service.clock.now.getTime() + hours * 3_600_000).toISOString();
  const pair = { first: CAST.anna.id, second: CAST.ben.id };
  const { visitId: coming } = await bookedVisit(service, { startsAt: at(24), endsAt: at(27), ...pair });
  await bookedVisit(service, { startsAt: at(-4), endsAt: at(-1), ...pair, state: 'done' });
  const job = await siteJob(service);
  const records = await record(tools, job);
  const { callbackId, pages } = await complaint(tools, job);
  return {
    owner: [
      `/visits/${coming}/kept`,
      ...['', '/record', '/report', '/agreement', '/money'].map((page) => `/jobs/${job.jobId}${page}`),
      ...(await book(tools)),
      ...(await papersAndMoney(tools)),
      ...(await plans(tools)),
      await spreadsheet(tools),
      ...pages,
      ...records.filter((page) => page.endsWith('/sealed')),
    ],
    anna: [
      ...['start', 'ending', 'late'].map((page) => `/visits/${coming}/${page}`),
      `/jobs/${job.jobId}/tests`,
      ...records.filter((page) => !page.endsWith('/sealed')),
      `/accounts/${callbackId}`,
      `/danger/${callbackId}`,
    ],
  };
}

/** A visit that just began: the record, and each of its pages. */
async function record({ done }: Tools, { visitId }: SiteJob): Promise<string[]> {
  const id = randomUUID();
  const item = { id: randomUUID(), kind: 'ground_fault_device', label: 'Upstairs bath' } as const;
  await done(openRecord, { id, visitId, items: [item], systems: [], acknowledged: [] }, 'anna');
  const pages = ['', '/door', '/devices', '/restore', '/moisture', '/danger', '/damage', '/seal', '/sealed'];
  return pages.map((page) => `/records/${id}${page}`);
}

/** A dangerous callback, concluded, with a corrective action; one of the pair was asked what was seen and done. */
async function complaint({ done }: Tools, { jobId, clientId }: SiteJob): Promise<{ callbackId: string; pages: string[] }> {
  const id = randomUUID();
  const words = 'The freezer in the garage thawed: its receptacle is dead.';
  const told = {
    speaker: 'client',
    kind: 'missed',
    safety: false,
    system: 'electrical',
    place: 'garage',
    remedySought: '',
    words,
  } as const;
  await done(receiveCallback, { id, jobId, partyId: clientId, ...told }, 'office');
  await done(acknowledgeCallback, { id }, 'office');
  await done(markSafety, { id, safety: true, words: 'Children play there' }, 'lead');
  await done(askAccount, { id, requestId: randomUUID(), personId: CAST.anna.id, publicUrl: 'https://firm.example' }, 'owner');
  const concluded = { cause: 'not_in_procedure', stepKey: 'ground-fault-trip-reset', words: 'No power check downstream.' } as const;
  await done(concludeCallback, { id, conclusionId: randomUUID(), ...concluded }, 'lead');
  const action = { id: randomUUID(), kind: 'training', title: 'Power after every reset', why: 'Receptacles were left dead.' } as const;
  const people = { ownerId: CAST.lead.id, reviewerId: CAST.owner.id };
  await done(createAction, { ...action, ...people, dueOn: '2099-05-01', reviewOn: '2099-09-01', callbackIds: [id] }, 'lead');
  return { callbackId: id, pages: [`/callbacks/${id}`, `/callbacks/${id}/evidence`, `/corrective-actions/${action.id}`] };
}

/** The book: a procedure, its revision in force, and a draft as form, table and page. */
async function book({ service, done }: Tools): Promise<string[]> {
  const [attic] = await service.database.read.rows<{ id: string; revision: string }>(
    `SELECT p.id::text AS id, r.id::text AS revision FROM procedure p JOIN procedure_revision r ON r.procedure_id = p.id WHERE p.key = 'attic'`,
  );
  const draft = randomUUID();
  await done(draftRevision, { id: draft, procedureId: attic!.id, reason: 'Ducts that end in the attic were missed' }, 'lead');
  const pages = [`draft/${draft}`, `table/${draft}`, `revision/${draft}`, `revision/${attic!.revision}`];
  return [...pages, `acknowledge/${attic!.revision}`, attic!.id].map((page) => `/procedures/${page}`);
}

/** An agreement text and its draft; a job with an agreement that waits for signatures, and an invoice. */
async function papersAndMoney({ service, done }: Tools): Promise<string[]> {
  const { jobId } = await paidJob(service);
  await done(issueAgreementOfJob, { jobId, publicUrl: 'https://firm.example' }, 'office');
  await done(issueInvoiceOfJob, { jobId }, 'office');
  const draft = randomUUID();
  const one = async (sql: string) => (await service.database.read.rows<{ id: string }>(sql, sql.includes('$1') ? [jobId] : []))[0]!.id;
  const text = await one('SELECT id::text FROM agreement_text WHERE number = 1');
  await done(draftText, { id: draft, copyOf: text, reason: 'Say that shoes stay on' }, 'office');
  const signer = await one(
    'SELECT s.id::text FROM signer s JOIN agreement a ON a.id = s.agreement_id WHERE a.job_id = $1::uuid ORDER BY a.issued_at DESC LIMIT 1',
  );
  return [
    ...[text, `${draft}/draft`, `${draft}/comparison`].map((page) => `/agreement-texts/${page}`),
    `/jobs/${jobId}/sign/${signer}`,
    `/invoices/${await one('SELECT id::text FROM invoice WHERE job_id = $1::uuid')}`,
    `/statements/${await one('SELECT payer_id::text AS id FROM invoice WHERE job_id = $1::uuid')}`,
    `/fee-schedules/${await one('SELECT id::text FROM fee_schedule LIMIT 1')}`,
  ];
}

/** A spreadsheet whose columns are still to be said. */
async function spreadsheet({ done }: Tools): Promise<string> {
  const id = randomUUID();
  await done(takeFile, { id, kind: 'clients', text: 'Name,Phone\nNell Arden,920-555-0172\n' }, 'owner');
  return `/bring-in/${id}`;
}

/** A plan and a what-if that are asked for. */
async function plans({ done }: Tools): Promise<string[]> {
  const [day, whatIf] = [randomUUID(), randomUUID()];
  await done(askDayPlan, { id: day, from: '2099-05-04', to: '2099-05-04', weights: {} }, 'office');
  const change = { kind: 'speed', percent: 90 } as const;
  await done(askWhatIf, { id: whatIf, from: '2026-05-04', weeks: 1, change, visits: 'either' }, 'owner');
  return [`/day-plan/${day}`, `/what-if/${whatIf}`];
}
