// Agreement texts: drafted from another, changed, discarded, approved by a second person, withdrawn.
import { changesSomething, compareTexts } from '@backsight/domain/agreements/compareTexts';
import { checkText } from '@backsight/domain/agreements/textChecks';
import { approveText, lockedChanges, mustBeDraft, withdrawText } from '@backsight/domain/agreements/textLife';
import type { TextContent } from '@backsight/domain/agreements/text';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import {
  addTextDraft,
  approveTextRow,
  deleteTextDraft,
  findText,
  listTexts,
  lockTexts,
  saveSetAside,
  saveTextDraft,
  withdrawTextRow,
  type TextRow,
} from '@backsight/store/agreements/texts';
import { listServices } from '@backsight/store/jobs/services';
import type { Act, Work } from '../run.ts';
import { reviewWas } from './steps/reviewDay.ts';
import { textBreaksOn } from './steps/textBreaks.ts';
import { textsThatLock } from './steps/textsThatLock.ts';

type Changed = { id: string; version: number };

async function draftAt(work: Work, id: string, version: number): Promise<Outcome<TextRow>> {
  await lockTexts(work.tx);
  const row = await findText(work.tx, id);
  if (!row) return refuse('not-found', { thing: 'agreement text' });
  const open = mustBeDraft(row);
  if (!open.ok) return open;
  return row.version === version ? accept(row) : refuse('changed-meanwhile');
}

export type DraftTextInput = { id: string; copyOf: string; reason: string };

/** A draft that begins as a copy. Refusals: text-draft-exists. */
export const draftText: Act<DraftTextInput, Changed> = {
  operation: 'agreements.draft-text',
  run: async (work, { id, copyOf, reason }) => {
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    await lockTexts(work.tx);
    const from = await findText(work.tx, copyOf);
    if (!from) return refuse('not-found', { thing: 'agreement text' });
    const { kind, title, consentText, clauses, limits } = from;
    const number = await addTextDraft(work.tx, {
      ...{ id, kind, title, consentText, clauses, limits, reason },
      ...{ basedOnId: copyOf, authorId: work.actor.id, at: work.now },
    });
    await work.did('agreement-text', id, { event: 'drafted', number, copyOf });
    return accept({ id, version: 1 });
  },
};

export type ChangeTextInput = TextContent & { id: string; version: number; reason: string };

/** The whole draft as it is now. Whoever changes it last is its author: he cannot approve it. */
export const changeText: Act<ChangeTextInput, Changed> = {
  operation: 'agreements.change-text',
  run: async (work, { id, version, reason, ...content }) => {
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    const row = await draftAt(work, id, version);
    if (!row.ok) return row;
    const services = (await listServices(work.tx)).map(({ key }) => key);
    const sound = checkText(content, services);
    if (!sound.ok) return sound;
    if (!(await saveTextDraft(work.tx, id, version, { ...content, reason, authorId: work.actor.id }))) return refuse('changed-meanwhile');
    await work.did('agreement-text', id, { event: 'changed', number: row.value.number, clauses: content.clauses.length });
    return accept({ id, version: version + 1 });
  },
};

export const discardText: Act<{ id: string; version: number }, { id: string }> = {
  operation: 'agreements.discard-text',
  run: async (work, { id, version }) => {
    const row = await draftAt(work, id, version);
    if (!row.ok) return row;
    if (!(await deleteTextDraft(work.tx, id, version))) return refuse('changed-meanwhile');
    await work.did('agreement-text', id, { event: 'discarded', number: row.value.number });
    return accept({ id });
  },
};

/**
 * `inForceFrom` is an instant as ISO text, null = now; `reason` is an owner's, where a rule of a state says otherwise; `review` is needed
 * where a clause that an attorney locked reads otherwise.
 */
export type ApproveTextInput = {
  id: string;
  version: number;
  inForceFrom: string | null;
  reason: string | null;
  review: { attorney: string; on: string } | null;
};

export const approveTextDraft: Act<ApproveTextInput, { id: string; inForceFrom: string }> = {
  operation: 'agreements.approve-text',
  run: approveIt,
};

async function approveIt(
  work: Work,
  { id, version, inForceFrom, reason, review }: ApproveTextInput,
): Promise<Outcome<{ id: string; inForceFrom: string }>> {
  const { tx, actor, now } = work;
  if (actor.kind !== 'person') return refuse('not-allowed');
  const row = await draftAt(work, id, version);
  if (!row.ok) return row;
  const text = row.value;
  const sound = checkText(
    text,
    (await listServices(tx)).map(({ key }) => key),
  );
  if (!sound.ok) return sound;
  const was = review ? await reviewWas(work, review.on) : accept(null);
  if (!was.ok) return was;
  const [base, locking] = [text.basedOnId === null ? null : await findText(tx, text.basedOnId), await textsThatLock(tx, text, now)];
  const breaks = await textBreaksOn(tx, text, inForceFrom === null ? now : new Date(inForceFrom));
  const decided = approveText(
    {
      ...{ text, breaks, now: now.toISOString(), lockedChanged: lockedChanges(locking, text.clauses) },
      changesSomething: base === null || changesSomething(compareTexts(base, text, {})),
    },
    { approverId: actor.id, roles: actor.roles, inForceFrom, reason, review },
  );
  if (!decided.ok) return decided;
  const from = new Date(decided.value.inForceFrom);
  const locked = [...new Set(locking.flatMap((one) => one.locked))].filter((key) => text.clauses.some((clause) => clause.key === key));
  const marks = { locked, attorney: review?.attorney ?? null, attorneyOn: review && new Date(review.on) };
  if (!(await approveTextRow(tx, { id, version }, { approverId: actor.id, approvedAt: now, inForceFrom: from, ...marks })))
    return refuse('changed-meanwhile');
  const aside = breaks.map(({ packId, rowKey, sentence }) => ({
    ...{ id: work.newId(), packId, rowKey, sentence, thingKind: 'agreement-text' as const, thingId: id },
    ...{ reason: (reason ?? '').trim(), actorId: actor.id },
  }));
  await saveSetAside(tx, aside, now);
  await work.did('agreement-text', id, {
    event: 'approved',
    number: text.number,
    inForceFrom: from.toISOString(),
    setAside: breaks.map(({ jurisdiction, rowKey }) => `${jurisdiction} ${rowKey}`),
  });
  return accept({ id, inForceFrom: from.toISOString() });
}

/** Takes a text out of use; the one before it counts again. Agreements that were made from it stand. */
export const withdrawApprovedText: Act<{ id: string }, { id: string }> = {
  operation: 'agreements.withdraw-text',
  run: async (work, { id }) => {
    await lockTexts(work.tx);
    const all = await listTexts(work.tx);
    const text = all.find((one) => one.id === id);
    if (!text) return refuse('not-found', { thing: 'agreement text' });
    const begun = (one: TextRow): boolean => one.state === 'approved' && one.kind === text.kind && one.inForceFrom! <= work.now;
    const others = all.filter((one) => one.id !== id && begun(one)).length;
    const decided = withdrawText({ ...text, inForce: begun(text) }, others);
    if (!decided.ok) return decided;
    if (!(await withdrawTextRow(work.tx, id, work.now))) return refuse('changed-meanwhile');
    await work.did('agreement-text', id, { event: 'withdrawn', number: text.number });
    return accept({ id });
  },
};
