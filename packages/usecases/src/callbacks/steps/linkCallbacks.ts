// Links a callback to an earlier one of the same property, and takes a wrong link back.
import { decideLink, decideUnlink, type Linkable } from '@backsight/domain/callbacks/link';
import type { LinkKind } from '@backsight/domain/callbacks/intakeWords';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { conclusionsOf, eventsOf, lockCallback, remediesOf, type CallbackRow } from '@backsight/store/callbacks';
import { hasDuplicates } from '@backsight/store/callbacks/intake';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { moneyOf } from '@backsight/store/callbacks/money';
import type { Work } from '../../run.ts';
import { isOwner, record, rolesOf, type Done } from './callback.ts';

export type LinkTo = { to: string; kind: LinkKind };

/**
 * Links the locked callback. A duplicate is closed, and its danger becomes that of the first one. Answers the first one besides. Refusals:
 * not-found and those of `decideLink`.
 */
export async function linkTo(
  work: Work,
  later: CallbackRow,
  { to, kind }: LinkTo,
  words?: string,
): Promise<Outcome<{ done: Done; first: CallbackRow }>> {
  const first = await lockCallback(work.tx, to);
  const hidden = first?.ownerOnly === true && !isOwner(rolesOf(work.actor));
  if (!first || hidden) return refuse('not-found', { thing: 'earlier callback' }, 'link.to');
  const decided = decideLink(await linkable(work, later), await linkable(work, first), {
    link: kind,
    decided: await isDecided(work, later.id),
  });
  if (!decided.ok) return decided;
  const changed = { duplicateOfId: kind === 'duplicate' ? first.id : null, repeatOfId: kind === 'repeat' ? first.id : null };
  const done = await record(work, later, {
    kind: 'linked',
    state: decided.value.state,
    changed,
    details: changed,
    ...(words ? { words } : {}),
  });
  if (!done.ok) return done;
  const { alarms } = decided.value;
  await record(work, first, {
    kind: alarms ? 'danger_added' : 'link_added',
    state: first.state,
    words: kind === 'duplicate' ? `Number ${later.number} says the same.` : `It came back: number ${later.number}.`,
    ...(alarms ? { changed: { safety: true }, details: { safety: true } } : {}),
  });
  return accept({ done: done.value, first });
}

/** A duplicate goes on as it was, with its own clocks. What it added in danger stays with the first one. Refusal: not-linked. */
export async function unlink(work: Work, later: CallbackRow, words: string): Promise<Outcome<Done>> {
  const events = await eventsOf(work.tx, later.id);
  const linkedAt = events.findLastIndex(({ kind }) => kind === 'linked');
  const decided = decideUnlink(await linkable(work, later), events[linkedAt - 1]?.state ?? 'received');
  if (!decided.ok) return decided;
  const first = await lockCallback(work.tx, (later.duplicateOfId ?? later.repeatOfId)!);
  const changed = { duplicateOfId: null, repeatOfId: null };
  const done = await record(work, later, { kind: 'unlinked', state: decided.value, changed, details: changed, words });
  if (first)
    await record(work, first, { kind: 'link_undone', state: first.state, words: `Number ${later.number} is no longer linked to this.` });
  return done;
}

async function linkable(work: Work, callback: CallbackRow): Promise<Linkable> {
  const { duplicateOfId, repeatOfId, jobId, ...rest } = callback;
  const { propertyId } = (await findJobForCallback(work.tx, jobId))!;
  return {
    ...rest,
    propertyId,
    duplicateOf: duplicateOfId,
    repeatOf: repeatOfId,
    hasDuplicates: await hasDuplicates(work.tx, callback.id),
  };
}

async function isDecided(work: Work, id: string): Promise<boolean> {
  const { paidCents, reservedCents } = await moneyOf(work.tx, id);
  if (paidCents !== 0 || reservedCents !== 0) return true;
  return (await conclusionsOf(work.tx, id)).length > 0 || (await remediesOf(work.tx, id)).some(({ state }) => state !== 'refused');
}
