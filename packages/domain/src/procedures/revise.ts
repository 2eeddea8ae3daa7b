// The life of a revision: drafted from the newest one, approved by a second person, in force from an instant, withdrawn only before that.
import type { BusinessCalendar } from '../shared/calendar.ts';
import { deadline } from '../shared/deadline.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Role } from '../people/roles.ts';
import { nothingPersonal } from './personal.ts';

export type RevisionState = 'draft' | 'approved' | 'withdrawn';

/** Instants are ISO text with an offset. */
export type Revision = {
  id: string;
  number: number;
  state: RevisionState;
  authorId: string;
  basedOnId: string | null;
  inForceFrom: string | null;
};

/** The approved revision of a procedure that comes into force last, or is the one in force. */
export type Newest = { id: string; number: number; inForceFrom: string };

/** Inspectors get at least this many working days from the instant in force, whatever the firm has set. */
export const SHORTEST_GRACE = 2;

/** One draft of a procedure at a time; its reason goes to every phone. Answers the number of the new draft. */
export function draft(
  facts: { drafts: readonly { number: number }[]; highestNumber: number; newest: { retires: boolean } | null },
  command: { reason: string; retires: boolean },
): Outcome<number> {
  const [open] = facts.drafts;
  if (open) return refuse('draft-exists', { number: open.number });
  if (command.retires && (facts.newest === null || facts.newest.retires)) return refuse('nothing-to-retire');
  const clean = nothingPersonal(command.reason, 'reason');
  return clean.ok ? accept(facts.highestNumber + 1) : clean;
}

export const mustBeDraft = ({ state, number }: Pick<Revision, 'state' | 'number'>): Outcome<null> =>
  state === 'draft' ? accept(null) : refuse('revision-not-a-draft', { number });

export type ApproveFacts = {
  revision: Revision;
  /** null for the first revision of a procedure. */
  newest: Newest | null;
  /** Answers of `checkRevision`. */
  problems: readonly string[];
  changesSomething: boolean;
  now: string;
  /** Working days that the firm gives to acknowledge. */
  graceDays: number;
  calendar: BusinessCalendar;
};

/** null means now, and as early as the grace allows. `graceReason` is the owner's, for less than that. */
export type ApproveCommand = {
  approverId: string;
  roles: readonly Role[];
  inForceFrom: string | null;
  acknowledgeBy: string | null;
  graceReason: string | null;
};

export type Approved = { inForceFrom: string; acknowledgeBy: string; shortened: boolean };

const millis = (iso: string): number => new Date(iso).getTime();

/** The earliest last time to acknowledge that needs no owner: office closing time of the nth working day after `inForceFrom`. */
export const earliestAcknowledgeBy = (inForceFrom: string, graceDays: number, calendar: BusinessCalendar): string =>
  deadline({ amount: Math.max(SHORTEST_GRACE, graceDays), unit: 'businessDays' }, inForceFrom, [], calendar)!;

const mayApprove = ({ revision, newest, problems, changesSomething }: ApproveFacts, command: ApproveCommand): Outcome<null> => {
  const open = mustBeDraft(revision);
  if (!open.ok) return open;
  if (!command.roles.includes('owner') && !command.roles.includes('lead_inspector')) return refuse('not-allowed');
  if (command.approverId === revision.authorId) return refuse('approver-is-author');
  if (newest !== null && revision.basedOnId !== newest.id) return refuse('revision-outdated', { number: newest.number });
  if (problems.length > 0) return refuse('revision-problems', { problems: [...problems] });
  return changesSomething ? accept(null) : refuse('revision-changes-nothing');
};

const beginning = ({ now, newest }: ApproveFacts, wanted: string | null): Outcome<string> => {
  const inForceFrom = wanted ?? now;
  if (millis(inForceFrom) < millis(now)) return refuse('in-force-past', {}, 'inForceFrom');
  if (newest === null || millis(newest.inForceFrom) < millis(inForceFrom)) return accept(inForceFrom);
  return refuse('in-force-before-newest', { number: newest.number, from: newest.inForceFrom }, 'inForceFrom');
};

/** Approves a draft: who, from when, and until when everybody has to have acknowledged it. */
export function approve(facts: ApproveFacts, command: ApproveCommand): Outcome<Approved> {
  const may = mayApprove(facts, command);
  if (!may.ok) return may;
  const from = beginning(facts, command.inForceFrom);
  if (!from.ok) return from;
  const inForceFrom = from.value;
  const earliest = earliestAcknowledgeBy(inForceFrom, facts.graceDays, facts.calendar);
  const acknowledgeBy = command.acknowledgeBy ?? earliest;
  const days = Math.max(SHORTEST_GRACE, facts.graceDays);
  if (millis(acknowledgeBy) >= millis(earliest)) return accept({ inForceFrom, acknowledgeBy, shortened: false });
  if (millis(acknowledgeBy) < millis(inForceFrom)) return refuse('grace-before-in-force', {}, 'acknowledgeBy');
  if (!command.roles.includes('owner')) return refuse('grace-too-short', { days, earliest }, 'acknowledgeBy');
  if (command.graceReason === null || command.graceReason.trim() === '') return refuse('grace-reason-missing', { days }, 'graceReason');
  return accept({ inForceFrom, acknowledgeBy, shortened: true });
}

/** An approved revision may be taken back while it is the newest and not in force yet. */
export function withdraw(facts: { revision: Revision; newest: Newest | null; now: string }): Outcome<null> {
  const { revision, newest, now } = facts;
  const { number, state, inForceFrom } = revision;
  if (state !== 'approved' || inForceFrom === null) return refuse('revision-not-approved', { number });
  if (millis(inForceFrom) <= millis(now)) return refuse('revision-in-force', { number });
  return newest === null || newest.id === revision.id ? accept(null) : refuse('revision-followed', { number: newest.number });
}

/** A person acknowledges for themselves, once, with every question answered right (at the start of a visit, perhaps without signal, the questions wait), from approval on; a revision that was superseded meanwhile still takes it (the phone was offline). */
export function acknowledge(
  facts: { revision: Pick<Revision, 'state' | 'number'>; already: boolean; openQuestions: number; now: string },
  command: { happenedAt: string; where: 'ahead' | 'at_the_start' },
): Outcome<null> {
  const {
    revision: { state, number },
    already,
    openQuestions,
    now,
  } = facts;
  if (state !== 'approved') return refuse('revision-not-approved', { number });
  if (millis(command.happenedAt) > millis(now)) return refuse('acknowledged-in-future', {}, 'happenedAt');
  if (already) return refuse('already-acknowledged');
  return openQuestions > 0 && command.where === 'ahead' ? refuse('questions-first', { open: openQuestions }) : accept(null);
}
