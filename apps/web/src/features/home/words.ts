// What the lists of the home are called, what their time means, and where a line leads.
import type { HomeItem, HomeKey } from '@backsight/contract/home';

type Words = { title: string; time: string };

export const WORDS: Record<HomeKey, Words> = {
  legalPapers: { title: 'Legal papers with a deadline', time: 'answer by' },
  appealsToDecide: { title: 'Appeals to decide', time: 'by' },
  afterChecks: { title: 'Ask whether it held', time: 'since' },
  remediesToApprove: { title: 'Remedies to approve', time: 'proposed' },
  clearancesNeeded: { title: 'Consent or reason missing before money leaves', time: 'since' },
  absencesAsked: { title: 'Absences asked for', time: 'from' },
  visitsOfAbsent: { title: 'Booked visits whose people are away', time: '' },
  kitShort: { title: 'Booked days with too little kit', time: 'on' },
  lapsing: { title: 'Licenses, education, kit and policies that lapse', time: 'on' },
  overridesUsed: { title: 'Let pass at a gate this month', time: '' },
  handedOverUnpaid: { title: 'Handed over, and the payment came back', time: 'handed over' },
  callbacksToLookInto: { title: 'Callbacks to look into', time: 'due' },
  recordsUnsealed: { title: 'Site records not sealed', time: 'visit ended' },
  reportsDue: { title: 'Reports to hand over', time: 'due' },
  draftsToApprove: { title: 'Drafts of procedures to approve', time: 'since' },
  textsToApprove: { title: 'Agreement texts to approve', time: 'since' },
  rulesSetAside: { title: 'Rules of states set aside', time: 'on' },
  notAcknowledged: { title: 'Who has not acknowledged a revision', time: 'by' },
  myVisits: { title: 'Your visits today', time: '' },
  myAccounts: { title: 'What you saw and did: you are asked', time: 'asked' },
  myRecords: { title: 'Your site records to seal', time: 'visit ended' },
  myAcknowledgements: { title: 'Revisions to acknowledge', time: 'by' },
  myLapsing: { title: 'Yours to renew', time: 'by' },
  callbacksOverdue: { title: 'Callbacks overdue', time: 'was due' },
  clientsToCall: { title: 'Clients to call', time: 'visit was' },
  jobsWithoutTime: { title: 'Booked jobs without a visit', time: 'must object by' },
  holdsEnding: { title: 'Holds that end soon', time: 'until' },
  tomorrowMissing: { title: "Tomorrow's visits with something missing", time: '' },
  toDecide: { title: 'To decide after a visit', time: 'by' },
  laterVisits: { title: 'Second visits to book', time: 'from' },
  resultsAwaited: { title: 'Results awaited', time: 'since' },
  inquiriesDue: { title: 'Prices asked, to follow up', time: 'on' },
  laterLooks: { title: 'Later looks that can be done now', time: 'since' },
  mailPaused: { title: 'No mail leaves', time: 'since' },
  addressesToAsk: { title: 'Addresses to ask for anew: mail came back', time: 'since' },
  mailFailed: { title: 'Mail that was not sent', time: 'since' },
  unsigned: { title: 'Agreements not signed', time: 'visit' },
  paymentsBack: { title: 'Payments that came back', time: 'came back' },
  unpaidDue: { title: 'Invoices due and not paid', time: 'due' },
};

export const NOTHING = 'Nothing needs doing now.';

const PLACES: Record<string, (id: string) => string> = {
  job: (id) => `/jobs/${id}`,
  visit: (id) => `/visits/${id}/start`,
  text: (id) => `/agreement-texts/${id}`,
  inquiry: () => '/inquiries',
  tests: (id) => `/jobs/${id}/tests`,
  account: (id) => `/accounts/${id}`,
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
