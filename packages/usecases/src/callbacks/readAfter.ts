// What follows a callback, as the desk sees it; what the client says of it is for the owner alone.
import { appealUntil, mayAppeal } from '@backsight/domain/callbacks/after';
import type { Role } from '@backsight/domain/people/roles';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCallback } from '@backsight/store/callbacks';
import { afterRules, assessmentOf, changeAfterRules, checksOf, deskPeople, type AfterRulesRow } from '@backsight/store/callbacks/after';
import { answerCounts, appealsOf, clientAnswerOf, ownersFor } from '@backsight/store/callbacks/appeals';
import { lettersOf } from '@backsight/store/callbacks/letters';
import type { Reader } from '@backsight/store/database';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act } from '../run.ts';
import { appealFacts } from './steps/appealFacts.ts';
import { isOwner } from './steps/callback.ts';

type Ask = { id: string; roles: readonly Role[]; now: Date };
const iso = (at: Date | null): string | null => at?.toISOString() ?? null;

/** null when there is none for this viewer. */
export async function readAfter(reader: Reader, { id, roles, now }: Ask) {
  const callback = await findCallback(reader, id);
  if (!callback || (callback.ownerOnly && !isOwner(roles))) return null;
  const { today } = await localDay(reader, now);
  const [assessment, rules, facts] = [await assessmentOf(reader, id), await afterRules(reader), await appealFacts(reader, callback, now)];
  const people = (await deskPeople(reader, today)).filter(({ owner }) => owner || !callback.ownerOnly);
  const owners = await ownersFor(reader, id, today);
  const answer = isOwner(roles) ? await clientAnswerOf(reader, id) : null;
  return {
    version: callback.version,
    assessment: assessment && { ...assessment, at: assessment.at.toISOString() },
    people: people.map((one) => ({ id: one.id, name: one.name })),
    checks: (await checksOf(reader, id)).map((one) => ({ ...one, doneAt: iso(one.doneAt) })),
    appeals: (await appealsOf(reader, id)).map((one) => ({
      ...one,
      receivedAt: one.receivedAt.toISOString(),
      decidedAt: iso(one.decidedAt),
    })),
    appealUntil: mayAppeal(facts, rules).ok ? appealUntil(facts.toldOn!, rules) : null,
    /** Owners who neither concluded nor were on the job: they decide an appeal. */
    freeOwners: owners.filter(({ involved }) => !involved).map(({ name }) => name),
    ...(isOwner(roles) ? { answer: answer && { ...answer, at: answer.at.toISOString() } } : {}),
  };
}

/** Letters of a callback as they left, the newest first. */
export async function readLetters(reader: Reader, { id, roles }: Omit<Ask, 'now'>) {
  const callback = await findCallback(reader, id);
  if (!callback || (callback.ownerOnly && !isOwner(roles))) return null;
  return (await lettersOf(reader, id)).map(({ at, ...one }) => ({ ...one, at: at.toISOString() }));
}

export const readAfterRules = (reader: Reader) => afterRules(reader);

export const setAfterRules: Act<AfterRulesRow, { version: number }> = {
  operation: 'callbacks.after-rules',
  run: async (work, rules): Promise<Outcome<{ version: number }>> => {
    if ((await changeAfterRules(work.tx, rules)) === 0) return refuse('changed-meanwhile');
    const { checkDays, appealDays, decideDays } = rules;
    await work.did('firm', FIRM_THING, { checkDays, appealDays, decideDays });
    return accept({ version: rules.version + 1 });
  },
};

/** What clients said, by month of closing. */
export const readAnswerCounts = async (reader: Reader, now: Date) => answerCounts(reader, (await localDay(reader, now)).zone);
