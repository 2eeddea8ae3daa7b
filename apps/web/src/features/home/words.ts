// What the lists of the home are called, what their time means, and where a line leads.
import type { HomeItem, HomeKey } from '@backsight/contract/home';

/** `all` is the screen that shows every row of the list. */
type Words = { title: string; time: string; all?: string };

export const WORDS: Record<HomeKey, Words> = {
  legalPapers: { title: 'Legal papers with a deadline', time: 'answer by', all: '/callbacks' },
  remediesToApprove: { title: 'Remedies to approve', time: 'proposed', all: '/callbacks' },
  clearancesNeeded: { title: 'Consent or reason missing before money leaves', time: 'since', all: '/callbacks' },
  absencesAsked: { title: 'Absences asked for', time: 'from' },
  visitsOfAbsent: { title: 'Booked visits whose people are away', time: '', all: '/week' },
  kitShort: { title: 'Booked days with too little kit', time: 'on', all: '/kit' },
  lapsing: { title: 'Licenses, education, kit and policies that lapse', time: 'on', all: '/lapsing' },
  overridesUsed: { title: 'Let pass at a gate this month', time: '' },
  handedOverUnpaid: { title: 'Handed over, and the payment came back', time: 'handed over', all: '/receivables' },
  callbacksToLookInto: { title: 'Callbacks to look into', time: 'due', all: '/callbacks' },
  recordsUnsealed: { title: 'Site records not sealed', time: 'visit ended' },
  reportsDue: { title: 'Reports to hand over', time: 'due', all: '/report-register' },
  draftsToApprove: { title: 'Drafts of procedures to approve', time: 'since', all: '/procedures' },
  textsToApprove: { title: 'Agreement texts to approve', time: 'since', all: '/agreement-texts' },
  rulesSetAside: { title: 'Rules of states set aside', time: 'on', all: '/agreement-texts' },
  notAcknowledged: { title: 'Who has not acknowledged a revision', time: 'by', all: '/procedures' },
  myVisits: { title: 'Your visits today', time: '', all: '/my-day' },
  myRecords: { title: 'Your site records to seal', time: 'visit ended', all: '/my-day' },
  myAcknowledgements: { title: 'Revisions to acknowledge', time: 'by', all: '/procedures' },
  myLapsing: { title: 'Yours to renew', time: 'by' },
  callbacksOverdue: { title: 'Callbacks overdue', time: 'was due', all: '/callbacks' },
  clientsToCall: { title: 'Clients to call', time: 'visit was' },
  jobsWithoutTime: { title: 'Booked jobs without a visit', time: 'must object by', all: '/jobs' },
  holdsEnding: { title: 'Holds that end soon', time: 'until', all: '/jobs' },
  tomorrowMissing: { title: "Tomorrow's visits with something missing", time: '', all: '/jobs' },
  toDecide: { title: 'To decide after a visit', time: 'by', all: '/jobs' },
  laterVisits: { title: 'Second visits to book', time: 'from', all: '/jobs' },
  resultsAwaited: { title: 'Results awaited', time: 'since', all: '/jobs' },
  inquiriesDue: { title: 'Prices asked, to follow up', time: 'on', all: '/inquiries' },
  laterLooks: { title: 'Later looks that can be done now', time: 'since', all: '/jobs' },
  mailPaused: { title: 'No mail leaves', time: 'since', all: '/mail' },
  addressesToAsk: { title: 'Addresses to ask for anew: mail came back', time: 'since', all: '/mail' },
  mailFailed: { title: 'Mail that was not sent', time: 'since', all: '/mail' },
  unsigned: { title: 'Agreements not signed', time: 'visit', all: '/jobs' },
  paymentsBack: { title: 'Payments that came back', time: 'came back', all: '/receivables' },
  unpaidDue: { title: 'Invoices due and not paid', time: 'due', all: '/receivables' },
};

export const NOTHING = 'Nothing needs doing now.';

const PLACES: Record<string, (id: string) => string> = {
  job: (id) => `/jobs/${id}`,
  visit: (id) => `/visits/${id}/start`,
  text: (id) => `/agreement-texts/${id}`,
  inquiry: () => '/inquiries',
  tests: (id) => `/jobs/${id}/tests`,
  record: (id) => `/jobs/${id}/record`,
  plan: (id) => `/day-plan/${id}`,
  callback: (id) => `/callbacks/${id}`,
  procedure: (id) => `/procedures/${id}`,
  person: (id) => `/people/${id}`,
  invoice: (id) => `/invoices/${id}`,
  agreement: (id) => `/jobs/${id}/agreement`,
  report: (id) => `/jobs/${id}/report`,
  revision: (id) => `/procedures/revision/${id}`,
  acknowledgement: (id) => `/procedures/acknowledge/${id}`,
  mail: () => '/mail',
  kit: () => '/kit',
  policy: () => '/firm',
};

/** The screen where a line is handled. */
export const addressOf = ({ kind, id }: HomeItem['thing']): string => (PLACES[kind] ?? (() => '/'))(id);
