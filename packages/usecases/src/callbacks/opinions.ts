// Opinions of a callback besides the conclusion: permission for kinds of error, counsel's mark, and what may be done with them.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { conclusionsOf, findCallback } from '@backsight/store/callbacks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { counselMarks, errorKindPermission, judgesNow, saveMark, savePermission } from '@backsight/store/callbacks/opinions';
import type { Reader } from '@backsight/store/database';
import { keepText } from '@backsight/store/text';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act, Actor, Work } from '../run.ts';
import { accountsFor } from './steps/accounts.ts';
import { actorId, isOwner, record, rolesOf, withCallback, type Done } from './steps/callback.ts';

const notLater = async (work: Work, day: string, field: string): Promise<Outcome<null>> =>
  day > (await localDay(work.tx, work.now)).today ? refuse('in-the-future', { day }, field) : accept(null);

export type PermissionInput = { allowed: boolean; attorney?: string; askedOn?: string };

/** An owner who asked the attorney turns kinds of error on, or turns them off. */
export const allowErrorKinds: Act<PermissionInput, { allowed: boolean }> = {
  operation: 'callbacks.allow-error-kinds',
  run: async (work, { allowed, attorney, askedOn }) => {
    if (allowed && !attorney) return refuse('attorney-was-not-asked', {}, 'attorney');
    if (allowed && !askedOn) return refuse('attorney-was-not-asked', {}, 'askedOn');
    if (allowed) {
      const past = await notLater(work, askedOn!, 'askedOn');
      if (!past.ok) return past;
    }
    const textId = allowed ? await keepText(work.tx, work.newId(), attorney!, work.now) : null;
    const row = { id: work.newId(), allowed, textId, askedOn: allowed ? askedOn! : null, actorId: actorId(work.actor)!, at: work.now };
    await savePermission(work.tx, row);
    await work.did('firm', FIRM_THING, { errorKinds: allowed, askedOn: row.askedOn });
    return accept({ allowed });
  },
};

export async function readErrorKinds(reader: Reader) {
  const now = await errorKindPermission(reader);
  return now
    ? { allowed: now.allowed, attorney: now.attorney, askedOn: now.askedOn, by: now.by, at: now.at.toISOString() }
    : { allowed: false, attorney: null, askedOn: null, by: null, at: null };
}

export type MarkInput = { id: string; markId: string; counsel: string; requestedOn: string };

/** Marks the opinions as prepared at counsel's request. */
export const markForCounsel: Act<MarkInput, Done> = {
  operation: 'callbacks.mark-for-counsel',
  run: (work, input) =>
    withCallback(work, input.id, async (callback) => {
      const past = await notLater(work, input.requestedOn, 'requestedOn');
      if (!past.ok) return past;
      const textId = await keepText(work.tx, work.newId(), input.counsel, work.now);
      const { markId: id, requestedOn } = input;
      await saveMark(work.tx, { id, callbackId: callback.id, textId, requestedOn, actorId: actorId(work.actor)!, at: work.now });
      return record(work, callback, { kind: 'counsel_marked', state: callback.state, details: { requestedOn } });
    }),
};

/** What the page says of the opinions besides conclusion and money; null when there is no such callback for this viewer. */
export async function readOpinions(reader: Reader, { id, actor }: { id: string; actor: Actor }) {
  const callback = await findCallback(reader, id);
  const me = actorId(actor);
  if (!callback || me === null || (callback.ownerOnly && !isOwner(rolesOf(actor)))) return null;
  const { pair } = (await findJobForCallback(reader, callback.jobId))!;
  const there = pair.map((one) => one.id);
  const [newest] = await conclusionsOf(reader, id);
  const waits = newest !== undefined && newest.needsConfirmation && newest.confirmedAt === null;
  const others = (await judgesNow(reader)).filter((one) => !there.includes(one) && one !== newest?.actorId);
  return {
    accounts: await accountsFor(reader, id, me, pair),
    marks: (await counselMarks(reader, id)).map(({ at, counsel, ...mark }) => ({
      ...{ ...mark, counsel: counsel ?? '(erased)' },
      at: at.toISOString(),
    })),
    errorKinds: (await errorKindPermission(reader))?.allowed ?? false,
    confirm: {
      waits,
      here: waits && newest.actorId !== me && !there.includes(me),
      outside: waits && isOwner(rolesOf(actor)) && others.length === 0,
    },
  };
}
