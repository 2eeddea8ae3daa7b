// What the left side offers: one line for each area whose screens exist, and who may use it.
import type { Who } from '@backsight/contract/route';
import type { Role } from '@backsight/contract/people';

export type Entry = { to: string; label: string; about: string; who: Exclude<Who, 'anyone'> };

export const NAVIGATION: readonly Entry[] = [
  { to: '/', label: 'Home', about: 'What needs you now', who: 'signed_in' },
  { to: '/my-day', label: 'My day', about: 'Your visits today and tomorrow, what to carry, and the site record', who: ['inspector', 'lead_inspector'] },
  { to: '/book', label: 'Book a job', about: 'When can you come, and what does it cost?', who: ['owner', 'office_manager', 'lead_inspector'] },
  { to: '/week', label: 'Week', about: 'Who goes where on which day', who: 'signed_in' },
  { to: '/jobs', label: 'Jobs', about: 'Every job, and what is still to get', who: 'signed_in' },
  { to: '/procedures', label: 'Procedures', about: 'How we inspect, what changes, who has acknowledged it', who: 'signed_in' },
  { to: '/callbacks', label: 'Callbacks', about: 'What was brought against the work of the firm, questions and near-misses', who: ['owner', 'lead_inspector', 'office_manager'] },
  { to: '/liabilities', label: 'Liabilities', about: 'What callbacks cost, what is open and for how long, and the figures of the steps', who: ['owner', 'lead_inspector'] },
  { to: '/people', label: 'People', about: 'Who works here, how to reach them and what they may do', who: 'signed_in' },
  { to: '/pairing', label: 'Pairing rules', about: 'Who must or must not go together', who: ['owner', 'office_manager', 'lead_inspector'] },
  { to: '/kit', label: 'Kit', about: 'What is shared, and until when it is calibrated', who: 'signed_in' },
  { to: '/lapsing', label: 'What lapses', about: 'Licenses, calibrations and policies that end soon', who: ['owner', 'office_manager', 'lead_inspector'] },
  { to: '/firm', label: 'Firm', about: 'Settings, office hours, insurance, approval limits', who: 'signed_in' },
  { to: '/audit', label: 'Audit trail', about: 'Everything that was done, with its proof', who: ['owner'] },
  { to: '/receivables', label: 'Who owes what', about: 'Open invoices, and how long they have been due', who: ['owner', 'office_manager'] },
  { to: '/ledger', label: 'Ledger', about: 'Balances of all accounts and the entries behind them', who: ['owner'] },
  { to: '/agreement-texts', label: 'Agreement texts', about: 'What clients sign, and whether an attorney approved it', who: ['owner', 'office_manager', 'lead_inspector'] },
  { to: '/mail', label: 'Outbox', about: 'Mail that the firm sends, and how it went', who: ['owner', 'office_manager'] },
];

/** The entries that somebody with these roles may use. */
export const entriesFor = (roles: readonly Role[]): Entry[] => NAVIGATION.filter(({ who }) => who === 'signed_in' || who.some((role) => roles.includes(role)));
