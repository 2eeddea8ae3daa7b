// One callback: its facts for everybody at the desk; opinions, reserve and clearance for owner and lead inspector alone.
import type { Role } from '@backsight/domain/people/roles';
import type { RemedyKind } from '@backsight/domain/callbacks/words';
import { repairWords } from '@backsight/domain/callbacks/ownRepair';
import { policyWarnings } from '@backsight/domain/callbacks/policy';
import {
  approvalsOf,
  clearancesOf,
  conclusionsOf,
  eventsOf,
  findCallback,
  remediesOf,
  wordsOf,
  type CallbackRow,
  type ConclusionRow,
} from '@backsight/store/callbacks';
import { actionsOfCallback } from '@backsight/store/callbacks/actions';
import { visitsOfRemedies } from '@backsight/store/callbacks/visits';
import { earlierCallbacks, findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { entriesOf, moneyOf } from '@backsight/store/callbacks/money';
import { findParties } from '@backsight/store/jobs/parties';
import { listPolicies } from '@backsight/store/firm/authority';
import type { Reader } from '@backsight/store/database';
import { nextClock } from '@backsight/store/callbacks/clocks';
import { clockOf } from './readCallbacks.ts';
import { isOwner, seesOpinions } from './steps/callback.ts';
import { CONFIDENTIAL, OWNERS_ALONE } from './steps/confidential.ts';
import { dayAt } from './steps/day.ts';
import { repairRuleFor } from './steps/repairRule.ts';

const iso = <T extends { happenedAt: Date }>(row: T) => ({ ...row, happenedAt: row.happenedAt.toISOString() });

/** The callback, or null when there is none for this viewer. */
export async function readCallback(reader: Reader, input: { id: string; roles: readonly Role[]; now: Date }) {
  const callback = await findCallback(reader, input.id);
  if (!callback || (callback.ownerOnly && !isOwner(input.roles))) return null;
  const job = (await findJobForCallback(reader, callback.jobId))!;
  const opinions = seesOpinions(input.roles);
  return { ...(await facts(reader, callback, job, input)), ...(opinions ? await confidential(reader, callback, job, input.now) : {}) };
}

async function facts(reader: Reader, callback: CallbackRow, job: JobForCallback, { roles, now }: { roles: readonly Role[]; now: Date }) {
  const { textId, policyId: _, receivedAt, duplicateOfId: _same, repeatOfId: _back, ...row } = callback;
  const opinions = seesOpinions(roles);
  const events = (await eventsOf(reader, callback.id)).filter(
    ({ kind }) => (opinions || !CONFIDENTIAL.includes(kind)) && (isOwner(roles) || !OWNERS_ALONE.includes(kind)),
  );
  const others = (await earlierCallbacks(reader, job.propertyId)).filter(
    ({ id, ownerOnly }) => id !== callback.id && (!ownerOnly || isOwner(roles)),
  );
  const [party] = callback.partyId === null ? [] : await findParties(reader, [callback.partyId]);
  const role = job.parties.find(({ id }) => id === callback.partyId)?.role ?? callback.speaker;
  return {
    ...row,
    words: (await wordsOf(reader, textId)) ?? '(erased)',
    receivedAt: receivedAt.toISOString(),
    clock: clockOf(await nextClock(reader, callback.id), now),
    party: party ? { id: party.id, name: party.name, role, email: party.email, phone: party.phone } : null,
    job: {
      id: job.id,
      number: job.number,
      address: job.address,
      town: job.town,
      inspectedOn: job.inspectedOn,
      pair: job.pair,
    },
    events: events.map(({ details: _details, ...e }) => ({
      ...iso(e),
      words: e.kind === 'received' || e.kind === 'letter' ? null : e.words,
    })),
    others: others.map(({ id, number, kind, state, receivedAt: at, jobNumber }) => ({
      id,
      number,
      kind,
      state,
      receivedAt: at.toISOString(),
      jobNumber,
    })),
    remedies: await remediesFor(reader, callback.id, opinions),
    ...(await ruleOfRepairs(reader, job, now)),
  };
}

/** What the rules of the property's state say about repairs by the firm itself. */
async function ruleOfRepairs(reader: Reader, job: JobForCallback, now: Date) {
  const { rule } = await repairRuleFor(reader, job, now);
  return { ownRepair: { state: rule.state, bars: rule.bars, ...repairWords(rule) } };
}

async function remediesFor(reader: Reader, callbackId: string, opinions: boolean) {
  const approvals = (await approvalsOf(reader, callbackId)).map(iso);
  const visits = await visitsOfRemedies(reader, callbackId);
  const visitOf = (id: string) => {
    const found = visits.find(({ remedyId }) => remedyId === id);
    return found
      ? { jobId: found.jobId, number: found.number, state: found.state, startsAt: found.startsAt.toISOString(), pair: found.pair }
      : null;
  };
  return (await remediesOf(reader, callbackId)).map(({ callbackId: _, proposedBy: _by, words, recordedAt, ...remedy }) => ({
    ...remedy,
    visit: visitOf(remedy.id),
    kind: remedy.kind as RemedyKind,
    recordedAt: recordedAt.toISOString(),
    approvals: approvals
      .filter(({ remedyId }) => remedyId === remedy.id)
      .map(({ remedyId: _id, words: said, ...a }) => ({ ...a, ...(opinions ? { words: said } : {}) })),
    ...(opinions ? { words } : {}),
  }));
}

const conclusionShown = ({ actorId: _, happenedAt, confirmedAt, ...row }: ConclusionRow) => ({
  ...row,
  happenedAt: happenedAt.toISOString(),
  confirmedAt: confirmedAt?.toISOString() ?? null,
});

/** What only owner and lead inspector see; for others these keys do not exist. */
async function confidential(reader: Reader, callback: CallbackRow, job: JobForCallback, now: Date) {
  const policy = (await listPolicies(reader)).find(({ id }) => id === callback.policyId) ?? null;
  const today = dayAt(now, job.zone);
  return {
    conclusions: (await conclusionsOf(reader, callback.id)).map(conclusionShown),
    clearances: (await clearancesOf(reader, callback.id)).map(iso),
    money: await moneyOf(reader, callback.id),
    moneyEntries: await entriesOf(reader, callback.id),
    policy: policy
      ? {
          insurer: policy.insurer,
          number: policy.number,
          kind: policy.kind,
          endsOn: policy.endsOn,
          deductibleCents: policy.deductibleCents,
          noticeAddress: policy.noticeAddress,
        }
      : null,
    policyWarnings:
      callback.kind === 'question' || callback.kind === 'near_miss'
        ? []
        : policyWarnings(policy, { today, inspectedOn: job.inspectedOn ?? today }).map(({ text }) => text),
    actions: (await actionsOfCallback(reader, callback.id)).map(
      ({ id, number, kind, state, title, dueOn, revisionId, revisionNumber, revisionState, procedureId }) => ({
        id,
        number,
        kind,
        state,
        title,
        dueOn,
        revisionId,
        revisionNumber,
        revisionState,
        procedureId,
      }),
    ),
  };
}
