// What speaks against a remedy of a callback today.
import { readClauses, readLimits } from '@backsight/domain/agreements/stored';
import { capCents, type Clause } from '@backsight/domain/agreements/text';
import { conflictsOf, noticeDaysIn, type Conflict } from '@backsight/domain/callbacks/conflicts';
import type { RemedyKind } from '@backsight/domain/callbacks/words';
import { claimReadings, claimWindow } from '@backsight/domain/liability/claimWindow';
import { packOn, rowsOn } from '@backsight/domain/shared/rulePack';
import type { CallbackRow } from '@backsight/store/callbacks';
import { termsOfJob } from '@backsight/store/callbacks/estimates';
import type { JobForCallback } from '@backsight/store/callbacks/job';
import type { Reader } from '@backsight/store/database';
import { listRulePacks } from '@backsight/store/firm/rulePacks';
import { dayAt } from './day.ts';

/** `totalCents`: this remedy with what was agreed before. */
export async function conflictsFor(
  reader: Reader,
  callback: Pick<CallbackRow, 'binding' | 'discoveredOn' | 'receivedAt'>,
  job: JobForCallback,
  remedy: { kind: RemedyKind; totalCents: number; now: Date },
): Promise<Conflict[]> {
  const terms = await termsOfJob(reader, job.id, job.zone);
  const today = dayAt(remedy.now, job.zone);
  const packs = await listRulePacks(reader);
  const inspectedOn = terms.inspectedOn ?? job.inspectedOn;
  const then = inspectedOn === null ? null : packOn(packs, job.jurisdiction, inspectedOn);
  const windows =
    then && inspectedOn !== null
      ? claimWindow(claimReadings(then.rows, inspectedOn), {
          inspectedOn,
          completedOn: terms.completedOn,
          deliveredOn: terms.deliveredOn,
          discoveredOn: callback.discoveredOn,
        })
      : null;
  return conflictsOf(
    {
      binding: callback.binding,
      capCents: terms.limits === null ? null : capCents(readLimits(terms.limits).cap, terms.feeCents),
      windows,
      noticeDays: noticeOf(terms.clauses === null ? [] : readClauses(terms.clauses)),
      discoveredOn: callback.discoveredOn,
      receivedOn: dayAt(callback.receivedAt, job.zone),
      today,
      rows: rowsOn(packOn(packs, job.jurisdiction, today)?.rows ?? [], today),
    },
    remedy,
  );
}

const noticeOf = (clauses: readonly Clause[]): number | null =>
  clauses.map(({ key, body }) => (key.startsWith('notice') ? noticeDaysIn(body) : null)).find((days) => days !== null) ?? null;
