// Words of the screens about callbacks.
import type { CallbackLine } from '@backsight/contract/callbacks';
import type { DANGERS } from '@backsight/contract/callbacks/intake';
import type { Role } from '@backsight/contract/people';
import { instantText } from '../../ui/time.ts';

export { DANGERS, SYSTEMS } from '@backsight/contract/callbacks/intake';
export type Danger = keyof typeof DANGERS;

export const EVENTS: Record<string, string> = {
  received: 'Received',
  acknowledged: 'Acknowledged',
  looking_into: 'Being looked into',
  note: 'Note',
  letter: 'Letter',
  checked: 'Asked whether it held',
  appealed: 'Appeal came in',
  appeal_decided: 'Appeal decided',
  client_answered: 'The client said how it was handled',
  concluded: 'Concluded',
  conclusion_confirmed: 'Conclusion confirmed',
  account_asked: 'Account asked for',
  account_given: 'Account given',
  counsel_marked: 'Marked for counsel',
  reserve_changed: 'Money set aside was changed',
  remedy_proposed: 'Remedy proposed',
  remedy_agreed: 'Remedy approved',
  remedy_refused: 'Remedy refused',
  remedy_done: 'Remedy carried out',
  cleared: 'Consent or reason recorded',
  paid: 'Paid',
  recovered: 'Money came back',
  closed: 'Closed',
  reopened: 'Opened again',
  visit_booked: 'Visit booked',
  became_callback: 'Became a callback',
  estimate_recorded: 'Estimate recorded',
  remedy_amended: 'Remedy changed',
  offer_made: 'Offer sent',
  offer_accepted: 'Offer accepted',
  offer_declined: 'Offer declined',
  offer_withdrawn: 'Offer withdrawn',
  release_issued: 'Settlement release sent',
  release_signed: 'Settlement release signed',
  release_answered: 'Settlement release not signed: answered otherwise',
  insurer_notified: 'Insurer notified',
  policy_named: 'Another policy',
  court_filed: 'Went to court',
  court_decided: 'Court case ended',
  payment_reversed: 'Payment taken back',
  recovery_reversed: 'Recovery taken back',
  answered: 'Answered',
  job_changed: 'Moved to another job',
  linked: 'Linked to an earlier one',
  unlinked: 'Link taken back',
  link_added: 'A later one was linked to it',
  link_undone: 'A link to it was taken back',
  paused: 'Waiting for the client: clocks stand still',
  resumed: 'Clocks go on',
  safety_marked: 'Marked as a danger to people',
  safety_lifted: 'Mark of danger lifted',
  danger_answered: 'Somebody has it',
  insurer_told: 'Insurer told',
  same_day_done: 'Done on the same day',
  paper_set: 'Days of the paper set',
  paper_answered: 'Paper answered',
  work_injury: 'Injury of somebody of ours',
  work_injury_reported: 'Injury reported',
  danger_added: 'A later one says that somebody may be in danger',
  photo_added: 'Photo added',
};

const CLOCKS = { acknowledge: 'Acknowledge', triage: 'Sort', answer: 'Answer', visit: 'Visit', decision: 'Decide' } as const;

/** 'Acknowledge: 2 days overdue', 'Decide by Tue, May 12, 5:00 PM'. */
export function clockText(clock: CallbackLine['clock'], zone: string, now = Date.now()): string {
  if (!clock) return '';
  if (!clock.overdue) return `${CLOCKS[clock.clock]} by ${instantText(clock.dueAt, zone)}${clock.dueWithinDay ? ' (within a day)' : ''}`;
  const days = Math.floor((now - Date.parse(clock.dueAt)) / 86_400_000);
  return `${CLOCKS[clock.clock]}: overdue by ${days < 1 ? 'less than a day' : days === 1 ? '1 day' : `${days} days`}`;
}

export const judges = (roles: readonly Role[]): boolean => roles.includes('owner') || roles.includes('lead_inspector');
export const atTheDesk = (roles: readonly Role[]): boolean => judges(roles) || roles.includes('office_manager');
export const options = (list: Record<string, string>) => Object.entries(list).map(([value, label]) => ({ value, label }));
