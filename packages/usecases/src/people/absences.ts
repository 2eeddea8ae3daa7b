// Absences: asked for, decided about, entered and withdrawn. Only an approved one keeps a person from visits.
import { spanInWords } from '@backsight/domain/shared/span';
import { decideAbsence, decides, stateAtFirst, type AbsenceState, type Decision } from '@backsight/domain/people/absences';
import { absenceFits, daysTouched, hitWarnings, sayHit } from '@backsight/domain/people/times';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import {
  decideAbsenceRow,
  findAbsence,
  saveAbsence,
  visitsOfPerson,
  withdrawAbsenceRow,
  type AbsenceRow,
} from '@backsight/store/people/times';
import { findPerson } from '@backsight/store/people';
import { lockDays } from '@backsight/store/schedule/visits';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Actor, Work } from '../run.ts';
import { tellDeciders, tellOfDecision } from './steps/tellOfAbsence.ts';

/** Everybody asks for himself; whoever decides enters those of everybody. */
const mayEnterFor = (actor: Actor, personId: string): boolean => actor.kind === 'person' && (actor.id === personId || decides(actor.roles));

/** From here on bookings of these days come one after the other with this act. */
const lock = (work: Work, personId: string, days: readonly string[]): Promise<void> =>
  lockDays(work.tx, { people: days.map((day) => ({ id: personId, day })), kit: [] });

export type AbsenceInput = { id: string; personId: string; startsAt: string; endsAt: string; reason: string };
type Entered = { id: string; state: AbsenceState; warnings: Warning[] };

/** An inspector's own absence is asked for; one that a decider enters counts at once. */
export const addAbsence: Act<AbsenceInput, Entered> = { operation: 'people.add-absence', run: add };

async function add(work: Work, input: AbsenceInput): Promise<Outcome<Entered>> {
  const { id, personId, reason } = input;
  if (work.actor.kind !== 'person' || !mayEnterFor(work.actor, personId)) return refuse('not-allowed');
  const person = await findPerson(work.tx, personId);
  if (!person) return refuse('not-found', { thing: 'person' });
  const [startsAt, endsAt] = [new Date(input.startsAt), new Date(input.endsAt)];
  const fits = absenceFits(startsAt, endsAt);
  if (!fits.ok) return fits;
  const { zone } = await localDay(work.tx, work.now);
  const state = stateAtFirst(work.actor.roles);
  await lock(work, personId, daysTouched(startsAt, endsAt, zone));
  await saveAbsence(work.tx, { id, personId, startsAt, endsAt, reason, state, recordedAt: work.now });
  const hit = await visitsOfPerson(work.tx, personId, startsAt, endsAt, work.now);
  if (state === 'asked') await tellDeciders(work, person, { id, span: spanInWords(startsAt, endsAt, zone), what: 'asks' });
  await work.did('person', personId, {
    absenceId: id,
    state,
    startsAt: startsAt.toISOString(),
    endsAt: endsAt.toISOString(),
    visitsHit: hit.map(({ visitId }) => visitId),
  });
  return accept({ id, state, warnings: hitWarnings(hit, zone) });
}

export type DecisionInput = Decision & { id: string };

export const decideAboutAbsence: Act<DecisionInput, Entered> = { operation: 'people.decide-absence', run: decide };

async function decide(work: Work, { id, ...decision }: DecisionInput): Promise<Outcome<Entered>> {
  const found = await findAbsence(work.tx, id);
  if (!found) return refuse('not-found', { thing: 'absence' });
  if (work.actor.kind !== 'person' || work.actor.id === found.personId) return refuse('not-allowed');
  const { zone } = await localDay(work.tx, work.now);
  await lock(work, found.personId, daysTouched(found.startsAt, found.endsAt, zone));
  const hit = await visitsOfPerson(work.tx, found.personId, found.startsAt, found.endsAt, work.now);
  const warnings = hitWarnings(hit, zone);
  const decided = decideAbsence(
    { state: found.state, withdrawn: found.withdrawnAt !== null },
    hit.map((visit) => sayHit(visit, zone)),
    decision,
  );
  if (!decided.ok) return decided;
  const by = { decision: decision.reason, decidedBy: work.actor.id, decidedAt: work.now };
  if (!(await decideAbsenceRow(work.tx, id, { state: decided.value, ...by }))) return refuse('absence-decided');
  await tellOfDecision(work, found, {
    state: decided.value,
    reason: decision.reason,
    span: spanInWords(found.startsAt, found.endsAt, zone),
  });
  await work.did('person', found.personId, { absenceId: id, state: decided.value, visitsKept: hit.map(({ visitId }) => visitId) });
  return accept({ id, state: decided.value, warnings: decided.value === 'approved' ? warnings : [] });
}

export const withdrawAbsence: Act<{ id: string }, { id: string }> = { operation: 'people.withdraw-absence', run: withdraw };

async function withdraw(work: Work, { id }: { id: string }): Promise<Outcome<{ id: string }>> {
  const found = await findAbsence(work.tx, id);
  if (!found) return refuse('not-found', { thing: 'absence' });
  if (!mayEnterFor(work.actor, found.personId)) return refuse('not-allowed');
  if (found.state === 'refused') return refuse('absence-decided');
  const { zone } = await localDay(work.tx, work.now);
  await lock(work, found.personId, daysTouched(found.startsAt, found.endsAt, zone));
  if (!(await withdrawAbsenceRow(work.tx, id, work.now))) return refuse('absence-withdrawn');
  await tellWithdrawn(work, found, zone);
  await work.did('person', found.personId, { absenceId: id, stateBefore: found.state });
  return accept({ id });
}

/** Whoever takes back his own absence says so to those who planned with it. */
async function tellWithdrawn(work: Work, { id, personId, startsAt, endsAt }: AbsenceRow, zone: string): Promise<void> {
  if (work.actor.kind !== 'person' || work.actor.id !== personId || decides(work.actor.roles)) return;
  const person = await findPerson(work.tx, personId);
  if (person) await tellDeciders(work, person, { id, span: spanInWords(startsAt, endsAt, zone), what: 'withdraws' });
}
