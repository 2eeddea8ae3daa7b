// Takes a callback in: number, clocks, what binds, and the mails that say it was heard. From the desk, a mail, the client's link or the site.
import type { IntakeWords } from '@backsight/domain/callbacks/rebuild';
import { adviceNow } from '@backsight/domain/callbacks/advice';
import { decideIntake, type Intake, type IntakeFacts } from '@backsight/domain/callbacks/intake';
import type { LoggedMail } from '@backsight/domain/callbacks/mailKey';
import { processWords } from '@backsight/domain/callbacks/letters';
import { isLegal } from '@backsight/domain/callbacks/words';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { findFirm } from '@backsight/store/firm';
import { listPolicies } from '@backsight/store/firm/authority';
import { lockCallback, saveCallback, saveEvent, type NewCallback } from '@backsight/store/callbacks';
import { approvedAdvice } from '@backsight/store/callbacks/advice';
import { earlierCallbacks, findJobForCallback, workedSteps, type JobForCallback } from '@backsight/store/callbacks/job';
import { goesToJobOf } from '@backsight/store/ownJobs';
import { saveParties } from '@backsight/store/jobs/parties';
import { nextNumber } from '@backsight/store/numbers';
import { keepText } from '@backsight/store/text';
import type { Work } from '../../run.ts';
import { calendarOf } from '../../firm/steps/calendar.ts';
import { onlyOwn } from '../../jobs/steps/onlyOwn.ts';
import { sendLetter } from '../../mail/steps/letter.ts';
import { actorId, rolesOf } from './callback.ts';
import { startDanger } from './danger.ts';
import { dayAt } from './day.ts';
import { keepIntake, newMail } from './keepIntake.ts';
import { linkTo, type LinkTo } from './linkCallbacks.ts';
import { startAtReception } from './runClocks.ts';

/** `mail`: what the office logs was received when the mail came. `link`: it belongs to an earlier one of the property. */
export type TakeIn = Omit<Intake, 'receivedAt'> &
  IntakeWords & { id: string; jobId: string; system: string; words: string; mail?: LoggedMail; link?: LinkTo };
export type Received = { id: string; number: number; warnings: Warning[] };

/** An inspector says what came from a job to which he goes. Refusals: those of `decideIntake` and `decideLink`, mail-logged-already, not-found, not-on-this-visit. */
export async function takeIn(work: Work, input: TakeIn): Promise<Outcome<Received>> {
  const job = await findJobForCallback(work.tx, input.jobId);
  if (!job) return refuse('not-found', { thing: 'job' }, 'jobId');
  const own = onlyOwn(work.actor);
  if (own !== null && !(await goesToJobOf(work.tx, 'job', job.id, own))) return refuse('not-on-this-visit', {}, 'jobId');
  const firm = await findFirm(work.tx);
  const receivedAt = input.mail ? new Date(input.mail.cameAt) : work.now;
  const command = { ...input, receivedAt: receivedAt.toISOString() };
  const decided = decideIntake(await factsFor(work, job, command, firm?.onCallPhone ?? ''), command);
  if (!decided.ok) return decided;
  const mail = await newMail(work, input.mail);
  if (!mail.ok) return mail;
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
    ...decided.value,
    discoveredOn: input.discoveredOn ?? null,
    servedOn: input.servedOn ?? null,
    serviceWay: input.serviceWay ?? null,
    deadlineOn: input.deadlineOn ?? null,
    duplicateOfId: null,
    repeatOfId: null,
    receivedAt,
    recordedAt: work.now,
  };
  await saveCallback(work.tx, row);
  await startAtReception(work, row, await calendarOf(work.tx, job.officeId, receivedAt));
  await firstEvent(work, row);
  await keepIntake(work, id, mail.value, input);
  const first = input.link ? await linkNew(work, id, input.link) : accept(null);
  if (!first.ok) return first;
  const heard = input.newParty ?? job.parties.find(({ id: partyId }) => partyId === row.partyId);
  const number = first.value?.number ?? row.number;
  if (heard?.email && firm) await sayHeard(work, row, { job, number, way: input.way }, { name: heard.name, email: heard.email }, firm);
  // The danger of a duplicate is that of the first one, whose alerts begin with the link.
  if (safety && input.link?.kind !== 'duplicate') await startDanger(work, row, job);
  const warnings = [...decided.warnings, ...(first.value ? [first.value.warning] : [])];
  const codes = warnings.map(({ code }) => code);
  await work.did('callback', id, { event: 'received', number: row.number, kind, speaker, safety, binding: row.binding, warnings: codes });
  return accept({ id, number: row.number, warnings }, warnings);
}

async function factsFor(work: Work, job: JobForCallback, command: Intake, onCallPhone: string): Promise<IntakeFacts> {
  const receivedAt = new Date(command.receivedAt);
  const earlier = await earlierCallbacks(work.tx, job.propertyId);
  return {
    inspectedOn: job.inspectedOn,
    today: dayAt(work.now, job.zone),
    receivedOn: dayAt(receivedAt, job.zone),
    now: work.now.toISOString(),
    byClient: work.actor.kind === 'client',
    parties: job.parties.map(({ id }) => id),
    signedBy: job.parties.filter(({ signed }) => signed).map(({ id }) => id),
    policies: await listPolicies(work.tx),
    onCallPhone,
    advice: command.safety ? adviceNow(await approvedAdvice(work.tx)) : [],
    stepKeys: command.stepKey === undefined ? [] : (await workedSteps(work.tx, job.id)).map(({ stepKey }) => stepKey),
    roles: rolesOf(work.actor),
    earlierOfProperty: earlier.filter(({ ownerOnly }) => !ownerOnly).map(({ number }) => number),
  };
}

/** Whoever brought a duplicate is told the number of the first one: that is where it goes on. */
async function linkNew(work: Work, id: string, link: LinkTo): Promise<Outcome<{ number: number | null; warning: Warning }>> {
  const linked = await linkTo(work, (await lockCallback(work.tx, id))!, link);
  if (!linked.ok) return linked;
  const { number } = linked.value.first;
  return accept(
    link.kind === 'duplicate'
      ? { number, warning: { code: 'duplicate', text: `It was added to number ${number}, which goes on. Tell the caller that number.` } }
      : { number: null, warning: { code: 'repeat', text: `It is linked to number ${number}, after which it came back.` } },
  );
}

/** The whole row as its first event; place and remedy sought are personal words and stand in its text. */
async function firstEvent(work: Work, row: NewCallback): Promise<void> {
  const { id, place, remedySought, recordedAt: _, receivedAt, ...facts } = row;
  const iso = {
    receivedAt: receivedAt.toISOString(),
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

type Heard = { job: JobForCallback; number: number; way: Intake['way'] };

/**
 * Tells whoever spoke that it was received. Nobody is written to about a near-miss, nor the other side of a legal paper; who wrote by the
 * private link knows what is in it.
 */
async function sayHeard(
  work: Work,
  row: NewCallback,
  { job, number, way }: Heard,
  party: { name: string; email: string },
  firm: { name: string; phone: string },
): Promise<void> {
  if (row.kind === 'near_miss' || isLegal(row.kind) || (row.ownerOnly && way !== 'link')) return;
  await sendLetter(work, {
    kind: row.kind === 'question' ? 'question_acknowledgement' : 'callback_acknowledgement',
    messageKey: `callback-received-${row.id}`,
    to: party,
    values: {
      ...{ address: `${job.address}, ${job.town}`, number: String(number), firm: firm.name, firm_phone: firm.phone },
      ...(row.kind === 'question' || work.publicUrl === '' ? {} : { process: processWords(work.publicUrl) }),
    },
    about: { kind: 'callback', id: row.id },
    urgent: row.safety,
  });
}
