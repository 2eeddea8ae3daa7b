// What a callback is traced to: a cause from the closed list and, for some causes, a step in the revision that the pair worked by.
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';
import { blamesStep, mustNameStep, type Cause } from './words.ts';

/** A step that was in the job's package: the revision is the one that was frozen for that visit. */
export type WorkedStep = { stepKey: string; revisionId: string };

export type ConclusionFacts = {
  steps: readonly WorkedStep[];
  /** Entries of the job's record, superseded ones too. */
  entries: readonly { id: string; stepKey: string }[];
  /** The one who concludes was on the job. */
  onTheJob: boolean;
};

export type ConclusionCommand = { cause: Cause; stepKey?: string; entryId?: string };
export type Concluded = { cause: Cause; stepKey: string | null; revisionId: string | null; entryId: string | null };

/** Concludes. The revision is never chosen by hand: it is the one in the package of the step that is named. */
export function decideConclusion(facts: ConclusionFacts, { cause, stepKey, entryId }: ConclusionCommand): Outcome<Concluded> {
  if (stepKey === undefined) {
    if (mustNameStep(cause)) return refuse('cause-needs-step', {}, 'stepKey');
    if (entryId !== undefined) return refuse('entry-of-another-step', {}, 'entryId');
    return accept({ cause, stepKey: null, revisionId: null, entryId: null }, warningsOf(facts));
  }
  if (!blamesStep(cause)) return refuse('cause-takes-no-step', {}, 'stepKey');
  const worked = facts.steps.find((step) => step.stepKey === stepKey);
  if (!worked) return refuse('step-not-on-this-job', { step: stepKey }, 'stepKey');
  if (entryId !== undefined && !facts.entries.some((entry) => entry.id === entryId && entry.stepKey === stepKey))
    return refuse('entry-of-another-step', {}, 'entryId');
  return accept({ cause, stepKey, revisionId: worked.revisionId, entryId: entryId ?? null }, warningsOf(facts));
}

const warningsOf = ({ onTheJob }: ConclusionFacts): Warning[] =>
  onTheJob ? [{ code: 'concluder-on-the-job', text: 'You were on this job: have somebody who was not there confirm the conclusion.' }] : [];
