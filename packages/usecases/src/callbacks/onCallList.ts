// The on-call list: who is on call when, in which order; read by everybody, kept by owner and office.
import { checkDuty, onCallAt, uncovered, type Duty } from '@backsight/domain/callbacks/onCall';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { endDuty, listDuties, saveDuty } from '@backsight/store/callbacks/danger';
import type { Reader } from '@backsight/store/database';
import { findPerson } from '@backsight/store/people';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act } from '../run.ts';
import { actorId } from './steps/callback.ts';
import { alertMinutes } from './steps/danger.ts';
import { chainFor, onCallFacts } from './steps/onCall.ts';

export async function readOnCall(reader: Reader, now: Date) {
  const facts = await onCallFacts(reader, now);
  const { today } = await localDay(reader, now);
  const onCall = onCallAt(facts, now.toISOString());
  const duties = await listDuties(reader, today);
  return {
    now: (await chainFor(reader, now, false)).map(({ id, name, phone }) => ({ id, name, phone, onCall: onCall.includes(id) })),
    uncovered: uncovered(facts, now.toISOString()),
    minutes: await alertMinutes(reader, now),
    duties: duties.map(({ recordedAt, weekdays, ...duty }) => ({ ...duty, weekdays: [...weekdays], recordedAt: recordedAt.toISOString() })),
    people: facts.people.map(({ id, name }) => ({ id, name })),
  };
}

/** Refusals: not-found, on-call-no-day, days-backwards. */
export const addDuty: Act<Duty & { id: string }, { id: string }> = {
  operation: 'callbacks.add-on-call',
  run: async (work, { id, ...duty }): Promise<Outcome<{ id: string }>> => {
    const may = checkDuty(duty, await findPerson(work.tx, duty.personId));
    if (!may.ok) return may;
    await saveDuty(work.tx, { ...duty, id, recordedAt: work.now, recordedBy: actorId(work.actor)! });
    const { personId, on, position, startMinute, endMinute, fromDay, untilDay } = duty;
    await work.did('on-call-duty', id, { personId, on, position, startMinute, endMinute, fromDay, untilDay });
    return accept({ id });
  },
};

/** Taken back, it no longer counts; the row stays. */
export const removeDuty: Act<{ id: string }, { id: string }> = {
  operation: 'callbacks.remove-on-call',
  run: async (work, { id }): Promise<Outcome<{ id: string }>> => {
    if (!(await endDuty(work.tx, id, work.now, actorId(work.actor)!))) return refuse('not-found', { thing: 'line of the on-call list' });
    await work.did('on-call-duty', id, { ended: true });
    return accept({ id });
  },
};
