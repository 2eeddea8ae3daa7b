// Corrective actions: the list, open ones first, and one with its history.
import type { Role } from '@backsight/domain/people/roles';
import type { ReviewResult } from '@backsight/domain/callbacks/words';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { findAction, listActions, type ActionRow } from '@backsight/store/callbacks/actions';
import { actionEvents, concludedCallbacks, type ActionEventRow } from '@backsight/store/callbacks/change';
import type { Reader } from '@backsight/store/database';
import { listPeople } from '@backsight/store/people';
import type { Actor } from '../run.ts';
import type { figuresOf } from './steps/effectOf.ts';
import { seesAction, type ActionHappened } from './steps/action.ts';
import { isOwner, rolesOf, seesOpinions } from './steps/callback.ts';

/** All of them, or those that one revision comes from. Callbacks that only the owner sees are left out for others. */
export const readActions = async (reader: Reader, { revisionId, roles }: { revisionId: string | null; roles: readonly Role[] }) =>
  (await listActions(reader, revisionId)).map((action) => said(action, roles));

const said = (a: ActionRow, roles: readonly Role[]) => ({
  ...a,
  inForceFrom: a.inForceFrom?.toISOString() ?? null,
  recordedAt: a.recordedAt.toISOString(),
  doneAt: a.doneAt?.toISOString() ?? null,
  changedAt: a.changedAt?.toISOString() ?? null,
  reopenedAt: a.reopenedAt?.toISOString() ?? null,
  callbacks: a.callbacks.filter(({ ownerOnly }) => !ownerOnly || isOwner(roles)).map(({ ownerOnly: _, ...c }) => c),
});

/** What an action may come from. */
export const readConcluded = async (reader: Reader, roles: readonly Role[]) =>
  (await concludedCallbacks(reader)).filter(({ ownerOnly }) => !ownerOnly || isOwner(roles)).map(({ ownerOnly: _, ...c }) => c);

/** What an event keeps, by its kind. */
type Details = {
  dueOn?: string;
  reviewOn?: string | null;
  doneOn?: string;
  attendees?: string[];
  kit?: string;
  result?: ReviewResult;
  nextOn?: string | null;
  figures?: ReturnType<typeof figuresOf>;
};

/** Owner and lead inspectors see all of it; whoever sees to it sees what is to be done, without reasons and callbacks. */
export async function readAction(reader: Reader, { id, actor }: { id: string; actor: Actor }) {
  const action = await findAction(reader, id);
  if (!action || !seesAction(action, actor)) return refuse('not-found', { thing: 'corrective action' });
  const roles = rolesOf(actor);
  const people = await listPeople(reader);
  const nameOf = (person: string): string => people.find((p) => p.id === person)?.name ?? '';
  const events = (await actionEvents(reader, id)).map((event) => eventOf(event, roles, nameOf));
  const { why, callbacks, ...rest } = said(action, roles);
  return accept(
    seesOpinions(roles) ? { ...rest, why, callbacks, events } : { ...rest, events: events.filter(({ kind }) => kind !== 'reviewed') },
  );
}

function eventOf(e: ActionEventRow, roles: readonly Role[], nameOf: (person: string) => string) {
  const { kind, by, words } = e;
  const { dueOn, reviewOn, doneOn, attendees, kit, result, nextOn, figures } = e.details as Details;
  const seesCallback = e.callbackId !== null && seesOpinions(roles) && (!e.callbackOwnerOnly || isOwner(roles));
  return {
    kind: kind as ActionHappened['kind'],
    by,
    words,
    happenedAt: e.happenedAt.toISOString(),
    ...(seesCallback ? { callback: { id: e.callbackId!, number: e.callbackNumber! } } : {}),
    ...(dueOn === undefined ? {} : { dueOn }),
    ...(reviewOn === undefined ? {} : { reviewOn }),
    ...(doneOn === undefined ? {} : { doneOn }),
    ...(attendees === undefined ? {} : { attendees: attendees.map(nameOf) }),
    ...(kit ? { kit } : {}),
    ...(result === undefined ? {} : { result, nextOn: nextOn ?? null }),
    ...(figures === undefined ? {} : { figures }),
  };
}
