// Corrective actions: made from callbacks, planned, linked to the revision they bring, done when the change is there.
import { decideAction, mayFinish, mayLink, planAction, type FinishCommand } from '@backsight/domain/callbacks/action';
import type { ActionKind } from '@backsight/domain/callbacks/words';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { concludedAmong, revisionStanding, saveAction, type ActionChange, type ActionRow } from '@backsight/store/callbacks/actions';
import { dayIn } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { nextNumber } from '@backsight/store/numbers';
import { findPerson } from '@backsight/store/people';
import type { Act, Work } from '../run.ts';
import { startOfDay } from '../schedule/steps/loadWorld.ts';
import { hidden, namesNone, recordAction, withAction } from './steps/action.ts';
import { seesOpinions } from './steps/callback.ts';
import { dayAt } from './steps/day.ts';

export type NewActionInput = {
  id: string;
  kind: ActionKind;
  title: string;
  why: string;
  ownerId: string;
  /** Null only where nothing is changed. */
  dueOn: string | null;
  reviewOn: string | null;
  reviewerId: string | null;
  callbackIds: string[];
};

const zoneOf = async (work: Work): Promise<string> => (await findFirm(work.tx))?.zone ?? 'UTC';

/** Both work for the firm; figures and opinions are for owner and lead inspectors, so one of them reviews. */
async function peopleAreThere(work: Work, { ownerId, reviewerId }: { ownerId: string; reviewerId: string | null }): Promise<Outcome<null>> {
  for (const [field, id] of Object.entries({ ownerId, reviewerId })) {
    const person = id === null ? null : await findPerson(work.tx, id);
    if (id !== null && (!person || person.endedOn !== null)) return refuse('not-found', { thing: 'person' }, field);
    if (field === 'reviewerId' && person && !seesOpinions(person.roles)) return refuse('reviewer-no-judge', {}, field);
  }
  return accept(null);
}

export const createAction: Act<NewActionInput, { id: string; number: number }> = { operation: 'callbacks.action', run: create };

async function create(work: Work, input: NewActionInput): Promise<Outcome<{ id: string; number: number }>> {
  const { id, kind, title, why, ownerId, reviewOn, reviewerId } = input;
  const callbackIds = [...new Set(input.callbackIds)];
  const today = dayAt(work.now, await zoneOf(work));
  const may = decideAction({ asked: callbackIds.length, concluded: await concludedAmong(work.tx, callbackIds), today }, input);
  if (!may.ok) return may;
  if (await hidden(work, callbackIds)) return refuse('not-found', { thing: 'callback' }, 'callbackIds');
  const clean = await namesNone(work, callbackIds, { title, why });
  if (!clean.ok) return clean;
  const there = await peopleAreThere(work, { ownerId, reviewerId });
  if (!there.ok) return there;
  const number = await nextNumber(work.tx, 'corrective-action');
  const nothing = kind === 'none';
  const dueOn = input.dueOn ?? today;
  await saveAction(work.tx, {
    ...{ id, number, kind, title, why, ownerId, dueOn, reviewOn, reviewerId, callbackIds, recordedAt: work.now },
    state: nothing ? 'done' : 'open',
    changedAt: nothing ? work.now : null,
    doneAt: nothing ? work.now : null,
  });
  const audit = { number, kind, callbacks: callbackIds, dueOn, reviewOn };
  await recordAction(work, { id, version: 1 }, { kind: 'decided', details: { kind, dueOn, ownerId, reviewOn, reviewerId }, audit }, null);
  return accept({ id, number });
}

export type PlanInput = { id: string; ownerId: string; dueOn: string; reviewOn: string | null; reviewerId: string | null };

/** Somebody else sees to it, until another day, or it is reviewed another day. */
export const replanAction: Act<PlanInput, { id: string }> = {
  operation: 'callbacks.replan-action',
  run: (work, { id, ...plan }) =>
    withAction(work, id, async (action) => {
      if (action.state === 'dropped') return refuse('action-closed', { state: action.state });
      const today = dayAt(work.now, await zoneOf(work));
      // What is done already is due no more: only its review can still be planned.
      const may = planAction(today, { ...plan, kind: action.kind, dueOn: action.state === 'open' ? plan.dueOn : today });
      if (!may.ok) return may;
      const there = await peopleAreThere(work, plan);
      if (!there.ok) return there;
      const { ownerId, reviewerId } = plan;
      const days = { dueOn: dayIn(plan.dueOn), reviewOn: plan.reviewOn === null ? null : dayIn(plan.reviewOn) };
      await recordAction(work, action, { kind: 'replanned', details: plan, audit: plan }, { ownerId, reviewerId, ...days });
      return accept({ id });
    }),
};

/** Says which drafted or approved revision the action brings. */
export const linkRevision: Act<{ id: string; revisionId: string }, { id: string }> = {
  operation: 'callbacks.link-revision',
  run: (work, { id, revisionId }) =>
    withAction(work, id, async (action) => {
      const standing = await revisionStanding(work.tx, revisionId, work.now);
      const may = mayLink(action, standing ?? undefined);
      if (!may.ok) return may;
      if (!standing) return refuse('not-found', { thing: 'revision' }, 'revisionId');
      await recordAction(work, action, { kind: 'linked', details: { revisionId }, audit: { revisionId } }, { revisionId });
      return accept({ id });
    }),
};

export type FinishInput = FinishCommand & { id: string };

export const finishAction: Act<FinishInput, { id: string }> = {
  operation: 'callbacks.finish-action',
  run: (work, { id, ...command }) => withAction(work, id, (action) => finish(work, action, command)),
};

async function finish(work: Work, action: ActionRow, command: FinishCommand): Promise<Outcome<{ id: string }>> {
  const zone = await zoneOf(work);
  const standing = action.revisionId === null ? null : await revisionStanding(work.tx, action.revisionId, work.now);
  const since = action.reopenedAt?.getTime() ?? 0;
  const facts = {
    kind: action.kind,
    state: action.state,
    revisionInForce: (standing?.inForce ?? false) && (action.changedAt?.getTime() ?? 0) > since,
    reopened: action.reopenedAt !== null,
    decidedOn: dayAt(action.recordedAt, zone),
    today: dayAt(work.now, zone),
  };
  const may = mayFinish(facts, command);
  if (!may.ok) return may;
  const { outcome, what, attendees, kit } = command;
  const clean = await namesNone(
    work,
    action.callbacks.map((c) => c.id),
    { what, kit },
  );
  if (!clean.ok) return clean;
  for (const person of attendees) if (!(await findPerson(work.tx, person))) return refuse('not-found', { thing: 'person' }, 'attendees');
  const done = outcome === 'done';
  const { doneOn } = may.value;
  const details = { ...(done ? { doneOn, attendees, kit } : {}), ...(what.trim() === '' ? { revisionId: action.revisionId } : {}) };
  const change: ActionChange = { state: outcome, doneAt: done ? work.now : null };
  if (done && action.kind !== 'revision') change.changedAt = changedFrom(doneOn, zone, work.now);
  await recordAction(work, action, { kind: outcome, details, words: what, audit: { doneOn } }, change);
  return accept({ id: action.id });
}

/** Jobs of a day before count as done without the change; those of the day itself too, unless it is today. */
const changedFrom = (doneOn: string, zone: string, now: Date): Date => {
  const dayAfter = startOfDay(shiftDay(doneOn, 1), zone);
  return dayAfter < now ? dayAfter : now;
};
