// Takes a callback in: number, clocks, what binds, and the mails that say it was heard. From the desk, or from the site the same hour.
import type { IntakeWords } from '@backsight/domain/callbacks/rebuild';
import { decideIntake, type Intake } from '@backsight/domain/callbacks/intake';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { findFirm } from '@backsight/store/firm';
import { listPolicies } from '@backsight/store/firm/authority';
import { saveCallback, saveEvent, type NewCallback } from '@backsight/store/callbacks';
import { earlierCallbacks, findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { saveParties } from '@backsight/store/jobs/parties';
import { nextNumber } from '@backsight/store/numbers';
import { listPeople } from '@backsight/store/people';
import { keepText } from '@backsight/store/text';
import type { Work } from '../../run.ts';
import { calendarOf } from '../../firm/steps/calendar.ts';
import { sendLetter } from '../../mail/steps/letter.ts';
import { actorId, rolesOf } from './callback.ts';
import { dayAt } from './day.ts';

export type ReceiveInput = Omit<Intake, 'receivedAt'> & IntakeWords & { id: string; jobId: string; system: string; words: string };
export type Received = { id: string; number: number; warnings: Warning[] };

/** Refusals: those of `decideIntake`, not-found. */
export async function takeIn(work: Work, input: ReceiveInput): Promise<Outcome<Received>> {
  const job = await findJobForCallback(work.tx, input.jobId);
  if (!job) return refuse('not-found', { thing: 'job' }, 'jobId');
  const firm = await findFirm(work.tx);
  const earlier = await earlierCallbacks(work.tx, job.propertyId);
  const decided = decideIntake(
    {
      inspectedOn: job.inspectedOn,
      today: dayAt(work.now, job.zone),
      parties: job.parties.map(({ id }) => id),
      signedBy: job.parties.filter(({ signed }) => signed).map(({ id }) => id),
      policies: await listPolicies(work.tx),
      calendar: await calendarOf(work.tx, job.officeId, work.now),
      onCallPhone: firm?.onCallPhone ?? '',
      roles: rolesOf(work.actor),
      earlierOfProperty: earlier.filter(({ ownerOnly }) => !ownerOnly).map(({ number }) => number),
    },
    { ...input, receivedAt: work.now.toISOString() },
  );
  if (!decided.ok) return decided;
  const { acknowledgeDueAt, triageDueAt, decisionDueAt, ...taken } = decided.value;
  if (input.newParty) await saveParties(work.tx, [{ ...input.newParty, minor: false, recordedAt: work.now }]);
  const textId = await keepText(work.tx, work.newId(), input.words, work.now);
  const { id, speaker, kind, safety, system, place, remedySought } = input;
  const row: NewCallback = {
    id,
    jobId: job.id,
    number: await nextNumber(work.tx, 'callback'),
    partyId: input.partyId ?? input.newParty?.id ?? null,
    speaker,
    kind,
    safety,
    system,
    place,
    remedySought,
    textId,
    ...taken,
    discoveredOn: input.discoveredOn ?? null,
    servedOn: input.servedOn ?? null,
    serviceWay: input.serviceWay ?? null,
    deadlineOn: input.deadlineOn ?? null,
    acknowledgeDueAt: new Date(acknowledgeDueAt),
    triageDueAt: new Date(triageDueAt),
    decisionDueAt: new Date(decisionDueAt),
    receivedAt: work.now,
    recordedAt: work.now,
  };
  await saveCallback(work.tx, row);
  await firstEvent(work, row);
  const heard = input.newParty ?? job.parties.find(({ id: partyId }) => partyId === row.partyId);
  if (heard?.email && firm) await sayHeard(work, row, job, { name: heard.name, email: heard.email }, firm);
  if (safety) await alarm(work, row, job);
  const codes = decided.warnings.map(({ code }) => code);
  await work.did('callback', id, { event: 'received', number: row.number, kind, speaker, safety, binding: row.binding, warnings: codes });
  return accept({ id, number: row.number, warnings: decided.warnings }, decided.warnings);
}

/** The whole row as its first event; place and remedy sought are personal words and stand in its text. */
async function firstEvent(work: Work, row: NewCallback): Promise<void> {
  const { id, place, remedySought, recordedAt: _, receivedAt, acknowledgeDueAt, triageDueAt, decisionDueAt, ...facts } = row;
  const iso = {
    receivedAt: receivedAt.toISOString(),
    acknowledgeDueAt: acknowledgeDueAt.toISOString(),
    triageDueAt: triageDueAt.toISOString(),
    decisionDueAt: decisionDueAt.toISOString(),
  };
  const textId = await keepText(work.tx, work.newId(), JSON.stringify({ place, remedySought } satisfies IntakeWords), work.now);
  await saveEvent(work.tx, {
    id: work.newId(),
    callbackId: id,
    seq: 1,
    kind: 'received',
    state: 'received',
    details: { ...facts, ...iso },
    textId,
    actorId: actorId(work.actor),
    at: work.now,
  });
}

/** Tells whoever spoke that it was received. Nobody is written to about a near-miss, nor the other side of a legal paper. */
async function sayHeard(
  work: Work,
  row: NewCallback,
  job: JobForCallback,
  party: { name: string; email: string },
  firm: { name: string; phone: string },
): Promise<void> {
  if (row.kind === 'near_miss' || row.ownerOnly) return;
  await sendLetter(work, {
    kind: row.kind === 'question' ? 'question_acknowledgement' : 'callback_acknowledgement',
    messageKey: `callback-received-${row.id}`,
    to: party,
    values: { address: `${job.address}, ${job.town}`, number: String(row.number), firm: firm.name, firm_phone: firm.phone },
    about: { kind: 'callback', id: row.id },
    urgent: row.safety,
  });
}

/** Danger waits for no business day: every owner and lead inspector is written to at once. */
async function alarm(work: Work, row: NewCallback, job: JobForCallback): Promise<void> {
  const people = (await listPeople(work.tx)).filter(
    ({ endedOn, roles }) => endedOn === null && (roles.includes('owner') || (!row.ownerOnly && roles.includes('lead_inspector'))),
  );
  for (const person of people) {
    await work.mail({
      messageKey: `callback-danger-${row.id}-${person.id}`,
      toAddress: person.email,
      toName: person.name,
      subject: `Danger: callback ${row.number}`,
      urgent: true,
      aboutKind: 'callback',
      aboutId: row.id,
      body: `Callback ${row.number} at ${job.address}, ${job.town} was marked as a danger to people. Call back at once.`,
    });
  }
}
