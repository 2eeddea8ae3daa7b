// The evidence of a callback on one page: what was recorded beside what the report said, with agreement, claim window and licenses.
import { claimReadings, claimWindow } from '@backsight/domain/liability/claimWindow';
import type { Role } from '@backsight/domain/people/roles';
import type { Evidence } from '@backsight/domain/procedures/step';
import { ACT_NAMES, type ActKind } from '@backsight/domain/sitework/act';
import { sayEntry } from '@backsight/domain/sitework/say';
import { CORRECTIONS, type CouldNotReason, type StepOutcome } from '@backsight/domain/sitework/value';
import type { ReportBody } from '@backsight/domain/sitework/report';
import { findCallback, type CallbackRow } from '@backsight/store/callbacks';
import {
  agreementsOfJob,
  entriesOfJob,
  licensesOn,
  photosOfJob,
  recordsOfJob,
  reportsOfJob,
  stepsOfJob,
  type EntryRow,
  type PhotoRow,
  type ReportRow,
  type WorkedStepRow,
} from '@backsight/store/callbacks/evidence';
import { findJobForCallback, type JobForCallback } from '@backsight/store/callbacks/job';
import { findRulePack } from '@backsight/store/firm/rulePacks';
import type { Reader } from '@backsight/store/database';
import { besidesSteps } from './steps/besides.ts';
import { isOwner } from './steps/callback.ts';

/** The evidence, or null when there is no such callback for this viewer. */
export async function readEvidence(reader: Reader, input: { id: string; roles: readonly Role[] }) {
  const callback = await findCallback(reader, input.id);
  if (!callback || (callback.ownerOnly && !isOwner(input.roles))) return null;
  const job = (await findJobForCallback(reader, callback.jobId))!;
  const [worked, entries] = [await stepsOfJob(reader, job.id), await entriesOfJob(reader, job.id)];
  const records = await recordsOfJob(reader, job.id);
  const files = (await photosOfJob(reader, job.id)).filter(({ injury }) => !injury || isOwner(input.roles)).map(photoOf);
  const besides = await besidesSteps(reader, records, job.zone, callback.place);
  const reports = await reportsOfJob(reader, job.id, job.zone);
  const licenses =
    job.inspectedOn === null
      ? []
      : await licensesOn(
          reader,
          job.pair.map(({ id }) => id),
          job.inspectedOn,
        );
  return {
    pair: job.pair.map(({ id, name, place }) => ({
      name,
      place,
      licenses: licenses.filter(({ personId }) => personId === id).map(({ kind, number, untilDay }) => ({ kind, number, untilDay })),
    })),
    records: records.map((r) => ({
      ...r,
      startsAt: r.startsAt.toISOString(),
      openedAt: r.openedAt.toISOString(),
      sealedAt: r.sealedAt?.toISOString() ?? null,
    })),
    steps: worked.map((step) => ({ ...stepOf(step, entries), comparison: besides.comparisonAt(step) })),
    acts: besides.acts,
    photos: files.flatMap(({ spoken, seconds: _, ...photo }) => (spoken ? [] : [photo])),
    spoken: files.flatMap(({ spoken, near: _, nearLimitM: _limit, ...note }) => (spoken ? [note] : [])),
    reports: reports.map(reportOf),
    agreements: await agreements(reader, job, callback),
    windows: await windows(reader, job, callback, reports),
  };
}

const sameItem =
  (step: WorkedStepRow) =>
  (entry: EntryRow): boolean =>
    entry.stepKey === step.stepKey && entry.itemId === step.itemId;

function stepOf(step: WorkedStepRow, entries: readonly EntryRow[]) {
  const { stepKey, title, instruction, caution, procedureTitle, system, revisionId, revisionNumber, item, packageNumber, partnerCheck } =
    step;
  return {
    stepKey,
    title,
    instruction,
    caution,
    procedureTitle,
    system,
    revisionId,
    revisionNumber,
    item,
    packageNumber,
    partnerCheck,
    entries: entries.filter(sameItem(step)).map((entry) => entryOf(entry, step.evidence as Evidence)),
  };
}

function entryOf(e: EntryRow, asked: Evidence) {
  const answer = sayEntry(
    { outcome: e.outcome as StepOutcome, evidence: e.value.evidence, reason: e.reason as CouldNotReason | null },
    asked,
  );
  return {
    id: e.id,
    answer,
    match: e.match,
    note: e.note,
    observedBy: e.observedBy,
    writtenBy: e.writtenBy,
    observedAt: e.observedAt.toISOString(),
    observedApprox: e.observedApprox,
    recordedAt: e.recordedAt.toISOString(),
    packageNumber: e.packageNumber,
    superseded: e.supersededById !== null,
    correction: e.value.correction ? CORRECTIONS[e.value.correction] : null,
  };
}

const photoOf = ({ injury: _, act, takenAt, ...photo }: PhotoRow) => ({
  ...photo,
  about: act === null ? null : (ACT_NAMES[act as ActKind] ?? act),
  takenAt: takenAt?.toISOString() ?? null,
});

/** A drafted report as lines by system; one that was taken in as a file has none. */
function reportOf({ body, ...report }: ReportRow) {
  const { summary = [], systems = [], notInspected = [] } = (body ?? {}) as Partial<ReportBody>;
  return {
    ...report,
    summary,
    systems: systems.map(({ system, lines }) => ({
      system,
      lines: lines.map(({ title, item, answer, note }) => ({ title, item, answer, note })),
    })),
    notInspected: notInspected.map(({ system, title, item, why }) => ({ system, title, item, why })),
  };
}

async function agreements(reader: Reader, job: JobForCallback, callback: CallbackRow) {
  return (await agreementsOfJob(reader, job.id)).map((a) => ({
    id: a.id,
    issuedAt: a.issuedAt.toISOString(),
    body: a.body,
    textTitle: a.textTitle,
    reviewedByAttorney: a.attorneyOn !== null,
    superseded: a.superseded,
    signers: a.signers.map(({ name, signedAt }) => ({ name, signedAt: signedAt === null ? null : new Date(signedAt).toISOString() })),
    binds: callback.binding,
  }));
}

/** The claim windows of the job by the short and the long reading, or null while no day is known. */
async function windows(reader: Reader, job: JobForCallback, callback: CallbackRow, reports: readonly ReportRow[]) {
  const first = reports.at(-1);
  const days = {
    inspectedOn: first?.inspectedOn ?? job.inspectedOn,
    completedOn: first?.completedOn ?? null,
    deliveredOn: first?.deliveredOn ?? null,
    discoveredOn: callback.discoveredOn,
  };
  const day = days.inspectedOn ?? job.inspectedOn;
  const pack = day === null ? null : await findRulePack(reader, job.jurisdiction, day);
  const readings = pack && day !== null ? claimReadings(pack.rows, day) : [];
  const window = claimWindow(readings, days);
  return {
    ...days,
    window: window === null ? null : { ...window, sources: readings.map(({ source }) => source), readOn: pack!.versionDay },
  };
}
