// What the lists of the home are called, what their time means, what is done about a line, and where.
import type { HomeItem, HomeKey } from '@backsight/contract/home';

type Words = {
  title: string;
  /** What the time of a line means. */
  time: string;
  /** The one thing to do about a line. */
  act: string;
};

export const WORDS: Record<HomeKey, Words> = {
  dangerUnanswered: { title: 'Danger: nobody has it yet', time: 'since', act: 'I have it' },
  legalOverdue: { title: 'Legal papers whose deadline was missed', time: 'was due', act: 'Answer it' },
  injuriesToReport: { title: 'Injuries of our own people to report', time: 'by', act: 'Report it' },
  sameDayMissing: { title: 'Legal papers: to do on the same day', time: 'came in', act: 'Do it now' },
  callbacksDueToday: { title: 'Callbacks due today', time: 'by', act: 'Go on with it' },
  waitingLong: { title: 'Waiting for a client for long', time: 'since', act: 'Call the client' },
  legalPapers: { title: 'Legal papers with a deadline', time: 'answer by', act: 'Prepare the answer' },
  appealsToDecide: { title: 'Appeals to decide', time: 'by', act: 'Decide' },
  afterChecks: { title: 'Ask whether it held', time: 'since', act: 'Ask' },
  remediesToApprove: { title: 'Remedies to approve', time: 'proposed', act: 'Decide' },
  clearancesNeeded: { title: 'Consent or reason missing before money leaves', time: 'since', act: 'Put it on file' },
  absencesAsked: { title: 'Absences asked for', time: 'from', act: 'Decide' },
  visitsOfAbsent: { title: 'Booked visits whose people are away', time: '', act: 'Send somebody else' },
  kitShort: { title: 'Booked days with too little kit', time: 'on', act: 'See the kit' },
  lapsing: { title: 'Licenses, education, kit and policies that lapse', time: 'on', act: 'Renew' },
  overridesUsed: { title: 'Let pass at a gate by others this month', time: '', act: 'Look' },
  handedOverUnpaid: { title: 'Handed over, and the payment came back', time: 'handed over', act: 'Look' },
  callbacksToLookInto: { title: 'Callbacks to look into', time: 'due', act: 'Look into it' },
  myActions: { title: 'Corrective actions to see to', time: 'due', act: 'Go on with it' },
  myReviews: { title: 'Corrective actions to review', time: 'on', act: 'Review' },
  recordsUnsealed: { title: 'Site records not sealed', time: 'visit ended', act: 'See what is missing' },
  reportsDue: { title: 'Reports to hand over', time: 'due', act: 'Hand over' },
  draftsToApprove: { title: 'Drafts of procedures to approve', time: 'since', act: 'Read and decide' },
  textsToApprove: { title: 'Agreement texts to approve', time: 'since', act: 'Read and decide' },
  rulesSetAside: { title: 'Rules of states set aside this month', time: 'on', act: 'Look' },
  notAcknowledged: { title: 'Who has not acknowledged a revision', time: 'by', act: 'See who' },
  myVisits: { title: 'Your visits today', time: '', act: 'Open' },
  myAccounts: { title: 'What you saw and did: you are asked', time: 'asked', act: 'Write it' },
  myRecords: { title: 'Your site records to seal', time: 'visit ended', act: 'Seal' },
  myAcknowledgements: { title: 'Revisions to acknowledge', time: 'by', act: 'Read and acknowledge' },
  myLapsing: { title: 'Yours to renew', time: 'by', act: 'Renew' },
  callbacksOverdue: { title: 'Callbacks overdue', time: 'was due', act: 'Go on with it' },
  clientsToCall: { title: 'Clients to call', time: 'visit was', act: 'Call' },
  jobsWithoutTime: { title: 'Booked jobs without a visit', time: 'must object by', act: 'Find a time' },
  holdsEnding: { title: 'Holds that end soon', time: 'until', act: 'Book or let go' },
  tomorrowMissing: { title: 'Visits until the next office day with something missing', time: '', act: 'Get it' },
  toDecide: { title: 'To decide after a visit', time: 'by', act: 'Decide' },
  laterVisits: { title: 'Second visits to book', time: 'from', act: 'Book it' },
  resultsAwaited: { title: 'Results awaited', time: 'since', act: 'Note the result' },
  inquiriesDue: { title: 'Prices asked, to follow up', time: 'on', act: 'Ask again' },
  laterLooks: { title: 'Later looks that can be done now', time: 'since', act: 'Offer it' },
  mailPaused: { title: 'No mail leaves', time: 'since', act: 'Let mail leave' },
  addressesToAsk: { title: 'Addresses to ask for anew: mail came back', time: 'since', act: 'Set it right' },
  mailFailed: { title: 'Mail that was not sent', time: 'since', act: 'Try again' },
  unsigned: { title: 'Agreements not signed', time: 'visit', act: 'Get it signed' },
  paymentsBack: { title: 'Payments that came back', time: 'came back', act: 'Look into it' },
  unpaidDue: { title: 'Invoices due and not paid', time: 'due', act: 'See the invoice' },
};

export const NOTHING = 'Nothing needs doing now.';

const PLACES: Record<string, (id: string) => string> = {
  job: (id) => `/jobs/${id}`,
  visit: (id) => `/visits/${id}/start`,
  text: (id) => `/agreement-texts/${id}`,
  inquiry: (id) => `/inquiries?inquiry=${id}`,
  tests: (id) => `/jobs/${id}/tests`,
  account: (id) => `/accounts/${id}`,
  record: (id) => `/jobs/${id}/record`,
  plan: (id) => `/day-plan/${id}`,
  action: (id) => `/corrective-actions/${id}`,
  callback: (id) => `/callbacks/${id}`,
  danger: (id) => `/danger/${id}`,
  procedure: (id) => `/procedures/${id}`,
  person: (id) => `/people/${id}`,
  invoice: (id) => `/invoices/${id}`,
  agreement: (id) => `/jobs/${id}/agreement`,
  report: (id) => `/jobs/${id}/report`,
  revision: (id) => `/procedures/revision/${id}`,
  acknowledgement: (id) => `/procedures/acknowledge/${id}`,
  mail: () => '/mail',
  mail_refused: () => '/mail?state=refused',
  kit: () => '/kit',
  kit_piece: (serial) => `/kit?q=${encodeURIComponent(serial)}`,
  policy: () => '/firm',
};

/** The part of that screen where a line is handled, by its title, when it is not seen at once. */
export const PART: Partial<Record<HomeKey, string>> = { absencesAsked: 'Absences', afterChecks: 'Afterwards' };

/** The screen where a line is handled. */
export const addressOf = ({ kind, id }: HomeItem['thing']): string => (PLACES[kind] ?? (() => '/'))(id);
