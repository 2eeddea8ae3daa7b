// What is known about putting a callback right: estimates for everybody at the desk, the rest for owner and lead inspector alone.
import { committedCents, totalOf } from '@backsight/domain/callbacks/approval';
import type { ConflictCode } from '@backsight/domain/callbacks/conflicts';
import { aggregateLeft, coverUse } from '@backsight/domain/callbacks/cover';
import { offerState } from '@backsight/domain/callbacks/settlement';
import type { RemedyKind } from '@backsight/domain/callbacks/words';
import type { Role } from '@backsight/domain/people/roles';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { textInForce } from '@backsight/store/agreements/texts';
import { findCallback, remediesOf, type CallbackRow } from '@backsight/store/callbacks';
import { estimatesOf, goneOnWithOf } from '@backsight/store/callbacks/estimates';
import { findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { entriesOf, moneyOf } from '@backsight/store/callbacks/money';
import { backOnInvoice, findEntry, insurerPaidByPolicy, recoveriesOf } from '@backsight/store/callbacks/payments';
import { casesOf, noticesOf, offersOf } from '@backsight/store/callbacks/settlement';
import type { Reader } from '@backsight/store/database';
import { invoicesOfJob } from '@backsight/store/fees';
import { listPolicies } from '@backsight/store/firm/authority';
import { isOwner, seesOpinions } from './steps/callback.ts';
import { conflictsFor } from './steps/conflicts.ts';
import { dayAt } from './steps/day.ts';
import { releaseOf } from './steps/release.ts';

type Ask = { id: string; roles: readonly Role[]; now: Date };

async function seen(reader: Reader, { id, roles }: Ask): Promise<{ callback: CallbackRow; job: JobForCallback } | null> {
  const callback = await findCallback(reader, id);
  if (!callback || (callback.ownerOnly && !isOwner(roles))) return null;
  return { callback, job: (await findJobForCallback(reader, callback.jobId))! };
}

/** Null when there is no such callback for this viewer. */
export async function readPuttingRight(reader: Reader, ask: Ask) {
  const found = await seen(reader, ask);
  if (!found) return null;
  const { callback, job } = found;
  const estimates = (await estimatesOf(reader, callback.id)).map(({ file, recordedAt: _, ...one }) => ({
    ...one,
    file: file?.name ?? null,
  }));
  return { estimates, ...(seesOpinions(ask.roles) ? await confidential(reader, callback, job, ask.now) : {}) };
}

async function confidential(reader: Reader, callback: CallbackRow, job: JobForCallback, now: Date) {
  const today = dayAt(now, job.zone);
  const text = await textInForce(reader, 'settlement_release', now);
  return {
    goneOnWith: (await goneOnWithOf(reader, callback.id)).map(({ at, code, ...row }) => ({
      ...row,
      code: code as ConflictCode,
      at: at.toISOString(),
    })),
    offers: (await offersOf(reader, callback.id)).map(({ callbackId: _, end, endedAt: _at, recordedAt, ...one }) => ({
      ...one,
      state: offerState({ validUntil: one.validUntil, end }, today),
      recordedAt: recordedAt.toISOString(),
    })),
    releases: await releases(reader, callback.id, now),
    releaseText: text && { title: text.title, reviewed: text.attorney !== null },
    notices: (await noticesOf(reader, callback.id)).map(({ recordedAt: _, ...one }) => one),
    cases: (await casesOf(reader, callback.id)).map(({ callbackId: _, ...one }) => one),
    recoveries: await recoveriesOf(reader, callback.id),
    reversible: await reversible(reader, callback.id),
    ...(await insurance(reader, callback)),
    paidInvoices: await paidInvoices(reader, callback.jobId),
  };
}

async function releases(reader: Reader, callbackId: string, now: Date) {
  const all = [];
  for (const { id } of await remediesOf(reader, callbackId)) {
    const { state, paper, signers, sha256 } = await releaseOf(reader, id);
    if (state === 'none' || !paper) continue;
    const { id: agreementId, title, reviewed, issuedAt } = paper;
    all.push({
      ...{ remedyId: id, state, agreementId, title, reviewed, sha256, issuedAt: issuedAt.toISOString() },
      signers: signers.map((s) => ({
        ...{ id: s.id, name: s.name, signedAt: s.signature?.happenedAt ?? null, answer: s.answer?.kind ?? null },
        linkOpen: s.sentAt !== null && s.revokedAt === null && s.tokenEndsAt > now,
      })),
    });
  }
  return all;
}

/** Ids of the payments and recoveries that stand. */
async function reversible(reader: Reader, callbackId: string): Promise<string[]> {
  const kinds = ['callback_payment', 'fee_refund', 'recovery'];
  const ids: string[] = [];
  for (const { id, kind } of await entriesOf(reader, callbackId))
    if (kinds.includes(kind) && !(await findEntry(reader, id))!.reversed) ids.push(id);
  return ids;
}

async function insurance(reader: Reader, callback: CallbackRow) {
  const policies = await listPolicies(reader);
  const policy = policies.find(({ id }) => id === callback.policyId) ?? null;
  const names = policies.map(({ id, insurer, number, endsOn }) => ({ id, name: `${insurer} ${number}, until ${endsOn}` }));
  if (!policy) return { cover: null, policies: names };
  const recoveries = await recoveriesOf(reader, callback.id);
  const sum = (of: (one: (typeof recoveries)[number]) => boolean) => recoveries.filter(of).reduce((total, { cents }) => total + cents, 0);
  const { paidCents } = await moneyOf(reader, callback.id);
  const directCents = sum(({ direct }) => direct);
  const insurerCents = sum(({ source, direct }) => source === 'insurer' && !direct);
  const othersCents = sum(({ source }) => source !== 'insurer');
  const paidUnder = (await insurerPaidByPolicy(reader)).find(({ policyId }) => policyId === policy.id)?.cents ?? 0;
  return {
    cover: {
      ...{ policyId: policy.id, deductibleCents: policy.deductibleCents, limitCents: policy.limitCents, directCents },
      ...coverUse({ paidCents, othersCents, insurerCents, directCents }, policy),
      aggregateLeftCents: aggregateLeft(policy.aggregateCents, paidUnder),
    },
    policies: names,
  };
}

async function paidInvoices(reader: Reader, jobId: string) {
  const paid = (await invoicesOfJob(reader, jobId)).filter(({ paidCents, number }) => paidCents > 0 && number !== null);
  const rows = [];
  for (const { id, number, payerName, paidCents } of paid)
    rows.push({ id, number: number!, payer: payerName, leftCents: Math.max(0, paidCents - (await backOnInvoice(reader, id))) });
  return rows;
}

/** What would speak against a remedy of such an amount, before anybody proposes it. Refusal: not-found. */
export async function readConflicts(reader: Reader, ask: Ask & { kind: RemedyKind; cents: number }) {
  const found = await seen(reader, ask);
  if (!found) return refuse('not-found', { thing: 'callback' });
  const { callback, job } = found;
  const committed = committedCents(await remediesOf(reader, callback.id), '');
  const conflicts = await conflictsFor(reader, callback, job, { kind: ask.kind, totalCents: totalOf(ask.cents, committed), now: ask.now });
  return accept({ committedCents: committed, conflicts });
}
