// What the left side offers: one line for each area, in groups, and who may use it.
import type { Who } from '@backsight/contract/route';
import type { Role } from '@backsight/contract/people';

export type Entry = { to: string; label: string; about: string; who: Exclude<Who, 'anyone'> };
/** `name` is the heading above the entries; the first group, what is used all day, has none. */
export type Group = { name: string; entries: readonly Entry[] };

const GROUPS: readonly Group[] = [
  {
    name: '',
    entries: [
      { to: '/', label: 'Home', about: 'What needs you now', who: 'signed_in' },
      {
        to: '/my-day',
        label: 'My day',
        about: 'Your visits today and tomorrow, what to carry, and the site record',
        who: ['inspector', 'lead_inspector'],
      },
      {
        to: '/my-time',
        label: 'My time',
        about: 'Your absences, miles, education hours and calendar address',
        who: ['inspector', 'lead_inspector'],
      },
      {
        to: '/book',
        label: 'Book a job',
        about: 'When can you come, and what does it cost?',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/inquiries',
        label: 'Prices asked',
        about: 'Who asked for a price and did not book, and when to ask again',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      { to: '/week', label: 'Week', about: 'Who goes where on which day', who: 'signed_in' },
      { to: '/jobs', label: 'Jobs', about: 'Every job, and what is still to get', who: 'signed_in' },
      {
        to: '/report-register',
        label: 'Register of reports',
        about: 'Every report in sequence: dates, who inspected and prepared it, to whom it went',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/contacts',
        label: 'People to call',
        about: 'Everybody with a visit in the next days, and how they were reached last',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/callbacks',
        label: 'Callbacks',
        about: 'What was brought against the work of the firm, questions and near-misses',
        who: ['owner', 'lead_inspector', 'office_manager'],
      },
    ],
  },
  {
    name: 'When the day changes',
    entries: [
      {
        to: '/sick-call',
        label: 'Somebody is out',
        about: 'Three ways to keep the promises of a day without one person',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/weather',
        label: 'Bad weather',
        about: 'Close a time for weather and move its visits together',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/day-plan',
        label: 'Day plan',
        about: 'Better pairs, order and times of the booked visits, with a proof',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/what-if',
        label: 'What if',
        about: 'One more inspector, another base: what last year’s weeks would have been',
        who: ['owner', 'office_manager'],
      },
    ],
  },
  {
    name: 'Money',
    entries: [
      {
        to: '/receivables',
        label: 'Who owes what',
        about: 'Open invoices, and how long they have been due',
        who: ['owner', 'office_manager'],
      },
      {
        to: '/mileage',
        label: 'Miles',
        about: 'What was driven, as planned and as entered, and what is repaid',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/fee-schedules',
        label: 'Fee schedules',
        about: 'What a job costs: drafts, comparison, what is in force',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      { to: '/waivers', label: 'Waived charges', about: 'What was not charged although the rule says so, and why', who: ['owner'] },
      { to: '/pay', label: 'Pay', about: 'What each visit pays, by rules that were in force', who: 'signed_in' },
      { to: '/ledger', label: 'Ledger', about: 'Balances of all accounts and the entries behind them', who: ['owner'] },
      {
        to: '/money-rules',
        label: 'Rules about money',
        about: 'Who may pay, deposits, closings, returned payments, sales tax',
        who: ['owner', 'office_manager'],
      },
    ],
  },
  {
    name: 'How we inspect',
    entries: [
      { to: '/procedures', label: 'Procedures', about: 'How we inspect, what changes, who has acknowledged it', who: 'signed_in' },
      {
        to: '/liabilities',
        label: 'Liabilities',
        about: 'What callbacks cost, what is open and for how long, and the figures of the steps',
        who: ['owner', 'lead_inspector'],
      },
      {
        to: '/my-figures',
        label: 'My figures',
        about: 'Callbacks of your jobs beside what was to be expected, and what that can and cannot tell',
        who: ['inspector', 'lead_inspector'],
      },
    ],
  },
  {
    name: 'People and kit',
    entries: [
      { to: '/people', label: 'People', about: 'Who works here, how to reach them and what they may do', who: 'signed_in' },
      {
        to: '/pairing',
        label: 'Pairing rules',
        about: 'Who must or must not go together',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      { to: '/kit', label: 'Kit', about: 'What is shared, and until when it is calibrated', who: 'signed_in' },
      {
        to: '/lapsing',
        label: 'What lapses',
        about: 'Licenses, education, kit and policies that end soon',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/providers',
        label: 'Outside providers',
        about: 'Who does beside our pair what we do not do ourselves',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
    ],
  },
  {
    name: 'The firm',
    entries: [
      {
        to: '/safety-advice',
        label: 'Advice in danger',
        about: 'What is said to somebody in danger, and who approved the words',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      { to: '/on-call', label: 'On call', about: 'Who is alerted when somebody may be in danger, at any hour', who: 'signed_in' },
      {
        to: '/callback-clocks',
        label: 'Clocks of callbacks',
        about: 'How long each kind of callback may take, and where the times come from',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      { to: '/mail', label: 'Outbox', about: 'Mail that the firm sends, and how it went', who: ['owner', 'office_manager'] },
      {
        to: '/travel',
        label: 'Driving times',
        about: 'Where they come from, what is said by hand, what recorded drives say',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/agreement-texts',
        label: 'Agreement texts',
        about: 'What clients sign, and whether an attorney approved it',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/state-rules',
        label: 'State rules',
        about: 'What the states ask, where it was read and how sure that is',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      {
        to: '/services',
        label: 'Services',
        about: 'What clients can order, and where it is offered',
        who: ['owner', 'office_manager', 'lead_inspector'],
      },
      { to: '/firm', label: 'Firm', about: 'Settings, office hours, insurance, approval limits', who: 'signed_in' },
      {
        to: '/personal-data',
        label: 'Personal data',
        about: 'Who asks what is kept of them or to be erased, and records whose time is over',
        who: ['owner', 'office_manager'],
      },
      {
        to: '/bring-in',
        label: 'Bring in records',
        about: 'People, clients, properties and past jobs from a spreadsheet',
        who: ['owner', 'office_manager'],
      },
      { to: '/audit', label: 'Audit trail', about: 'Everything that was done, with its proof', who: ['owner'] },
    ],
  },
];

const mayUse = ({ who }: Entry, roles: readonly Role[]): boolean => who === 'signed_in' || who.some((role) => roles.includes(role));

/** The groups with the entries that somebody with these roles may use; empty groups are left out. */
export const groupsFor = (roles: readonly Role[]): Group[] =>
  GROUPS.map(({ name, entries }) => ({ name, entries: entries.filter((entry) => mayUse(entry, roles)) })).filter(
    ({ entries }) => entries.length > 0,
  );

const within = (path: string, to: string): boolean => path === to || (to !== '/' && path.startsWith(`${to}/`));

const groupOf = (path: string): Group | undefined => GROUPS.find(({ entries }) => entries.some(({ to }) => within(path, to)));

/** The entry of the menu that an address belongs to. */
export const areaOf = (path: string): Entry | undefined => groupOf(path)?.entries.find(({ to }) => within(path, to));

/**
 * Of an address that somebody with these roles may not see: the area it belongs to, whether that is open to them, and where they may go:
 * the area itself, else what is beside it in the menu, and what they use all day.
 */
export function insteadOf(path: string, roles: readonly Role[]): { area: Entry | undefined; may: boolean; instead: Entry[] } {
  const area = areaOf(path);
  const may = area !== undefined && mayUse(area, roles);
  const daily = GROUPS[0]!.entries.filter((entry) => mayUse(entry, roles));
  const near = may ? [area] : (groupOf(path)?.entries.filter((entry) => mayUse(entry, roles)) ?? []);
  return { area, may, instead: [...new Set([...near, ...daily])] };
}
