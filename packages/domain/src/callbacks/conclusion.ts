// What a callback is traced to: a cause from the closed list and, for some causes, a step in the revision that the pair worked by.
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';
import { isError, type Circumstance, type ErrorKind } from './causes.ts';
import { blamesStep, mustNameStep, type Cause } from './words.ts';

/** A step that was in the job's package: the revision is the one that was frozen for that visit. */
export type WorkedStep = { stepKey: string; revisionId: string };

export type ConclusionFacts = {
  steps: readonly WorkedStep[];
  /** Entries of the job's record, superseded ones too. */
  entries: readonly { id: string; stepKey: string }[];
  /** The one who concludes was on the job. */
  onTheJob: boolean;
  /** The owner's permission to record error kinds that counts now; null: they are off. */
  permissionId: string | null;
};

export type ConclusionCommand = {
  cause: Cause;
  stepKey?: string;
  entryId?: string;
  errorKind?: ErrorKind;
  circumstances?: readonly Circumstance[];
  words?: string;
};
export type Traced = { cause: Cause; stepKey: string | null; revisionId: string | null; entryId: string | null };
export type Concluded = Traced & {
  errorKind: ErrorKind | null;
  permissionId: string | null;
  circumstances: Circumstance[];
  /** Nothing is decided on it before somebody who was not on the job confirms it. */
  needsConfirmation: boolean;
};

/** Concludes. The revision is never chosen by hand: it is the one in the package of the step that is named. */
export function decideConclusion(facts: ConclusionFacts, command: ConclusionCommand): Outcome<Concluded> {
  const traced = trace(facts, command);
  if (!traced.ok) return traced;
  const { errorKind = null, circumstances = [], words = '' } = command;
  if (circumstances.includes('other') && words.trim() === '') return refuse('circumstance-needs-words', {}, 'words');
  if (errorKind !== null && facts.permissionId === null) return refuse('error-kinds-off', {}, 'errorKind');
  if (errorKind !== null && isError(errorKind) && traced.value.stepKey === null) return refuse('error-kind-of-a-step', {}, 'errorKind');
  return accept(
    {
      ...traced.value,
      errorKind,
      permissionId: errorKind === null ? null : facts.permissionId,
      circumstances: [...new Set(circumstances)],
      needsConfirmation: facts.onTheJob,
    },
    warningsOf(facts),
  );
}

function trace({ steps, entries }: ConclusionFacts, { cause, stepKey, entryId }: ConclusionCommand): Outcome<Traced> {
  if (stepKey === undefined) {
    if (mustNameStep(cause)) return refuse('cause-needs-step', {}, 'stepKey');
    if (entryId !== undefined) return refuse('entry-of-another-step', {}, 'entryId');
    return accept({ cause, stepKey: null, revisionId: null, entryId: null });
  }
  if (!blamesStep(cause)) return refuse('cause-takes-no-step', {}, 'stepKey');
  const worked = steps.find((step) => step.stepKey === stepKey);
  if (!worked) return refuse('step-not-on-this-job', { step: stepKey }, 'stepKey');
  if (entryId !== undefined && !entries.some((entry) => entry.id === entryId && entry.stepKey === stepKey))
    return refuse('entry-of-another-step', {}, 'entryId');
  return accept({ cause, stepKey, revisionId: worked.revisionId, entryId: entryId ?? null });
}

const warningsOf = ({ onTheJob }: ConclusionFacts): Warning[] =>
  onTheJob
    ? [
        {
          code: 'concluder-on-the-job',
          text: 'You were on this job: nothing is decided on the conclusion before somebody who was not there confirms it.',
        },
      ]
    : [];

/** The newest conclusion, as far as a decision hangs on it. */
export type Standing = { id: string; actorId: string; needsConfirmation: boolean; confirmedAt: unknown };

/** Whether a decision, a remedy or a closing may count on the newest conclusion; `newest` is undefined where there is none, which others refuse. */
export const mayCountOn = (newest: Standing | undefined): Outcome<null> =>
  newest && newest.needsConfirmation && !newest.confirmedAt ? refuse('conclusion-unconfirmed') : accept(null);

export type ConfirmFacts = {
  newest: Standing | undefined;
  actor: string;
  isOwner: boolean;
  onTheJob: boolean;
  /** Others of the firm who judge callbacks and were not on the job, besides whoever concluded. */
  others: number;
};
/** `outside`: nobody else is in the firm; the words name who outside looked at it, or why nobody does. */
export type ConfirmCommand = { conclusionId: string; way: 'person' | 'outside'; words?: string };

/** Confirms a conclusion of somebody who was on the job. */
export function decideConfirmation({ newest, actor, isOwner, onTheJob, others }: ConfirmFacts, command: ConfirmCommand): Outcome<null> {
  if (!newest || newest.id !== command.conclusionId) return refuse('conclusion-superseded');
  if (!newest.needsConfirmation) return refuse('confirmation-not-needed');
  if (newest.confirmedAt) return refuse('confirmed-already');
  if (command.way === 'outside') {
    if (!isOwner) return refuse('not-allowed');
    if (others > 0) return refuse('somebody-else-confirms', { others });
    return (command.words ?? '').trim().length < 10 ? refuse('outside-needs-words', {}, 'words') : accept(null);
  }
  if (newest.actorId === actor) return refuse('own-conclusion');
  return onTheJob ? refuse('confirmer-on-the-job') : accept(null);
}
