// Each page that clients see without an account, made of one example of what it shows.
import type { ClientPage } from '@backsight/usecases/agreements/clientPage';
import { adviceNow } from '@backsight/domain/callbacks/advice';
import { refusals } from '@backsight/domain/refusals';
import { afterPage } from '../../apps/api/src/http/client/after.ts';
import { agreementPage } from '../../apps/api/src/http/client/agreement.ts';
import { cancelledPage, endedLinkPage, unknownLinkPage } from '../../apps/api/src/http/client/otherPages.ts';
import { processPage } from '../../apps/api/src/http/client/process.ts';
import { reportPage } from '../../apps/api/src/http/client/report.ts';
import { REPORT_FIELDS, type TypedReport } from '../../apps/api/src/http/client/reportFields.ts';
import type { Typed } from '../../apps/api/src/http/client/signForm.ts';
import { verifyPage } from '../../apps/api/src/http/client/verify.ts';

const firm = { firm: 'Grebe House', firmPhone: '555-0100', address: '12 Shore Road', name: 'Paula Prior', jobNumber: 12, zone: 'UTC' };
const at = '2026-05-12T14:00:00Z';
const answer: ClientPage['answer'] = null;
const paper: ClientPage = {
  ...{
    ...firm,
    appointment: '',
    fee: '',
    terms: '',
    capacity: 'self',
    authority: '',
    title: 'Paper',
    body: 'Words.',
    consentText: 'Words.',
  },
  ...{ sha256: 'a'.repeat(64), reviewed: true, superseded: true, since: null, answer, wantsPaper: false, signed: null },
  ...{ release: false, visited: true, sealed: false },
};
const signature = { name: 'Paula Prior', happenedAt: at, method: 'link', interpreter: '', strokes: null, sha256: paper.sha256 };
const signed = { ...paper, signed: signature as unknown as ClientPage['signed'], sealed: true };
const report = {
  ...firm,
  onCallPhone: '555-0101',
  hours: 'Monday to Friday',
  today: '2026-05-12',
  inspectedOn: '2026-05-01',
  advice: adviceNow([]),
};
const told = { number: 4, question: false, state: 'received' as never, receivedAt: at, sameAs: null, answerBy: at };
const once = { typed: null, sent: 4, token: 'x', id: 'y', mailLeaves: true };
const within = { amount: 2, unit: 'businessDays' };
const after = { ...firm, number: 4, mayAnswer: true, answer: null, appeal: null, appealUntil: '2026-06-01' };
const missing: Typed = {
  ...{ name: 'Paula', read: true, consent: false, word: 'fern', strokes: '', interpreter: '', reason: '' },
  ...{ problem: '', wrong: { word: refusals['format-unproven'].sentence, consent: refusals['no-consent'].sentence } },
};
const notSent: TypedReport = {
  ...{ id: 'y', matter: 'missed', system: 'roof', place: '', since: '', dangers: ['gas'], hope: '', words: '', problem: '' },
  wrong: { place: REPORT_FIELDS.place.empty, words: REPORT_FIELDS.words.empty },
};

/** The pages that clients see, by what they are for. */
export const CLIENT_PAGES = {
  'to sign': agreementPage(paper, null, 'x'),
  'with something missing': agreementPage(paper, missing, 'x'),
  signed: agreementPage(signed, null, 'x'),
  'of a settlement release': agreementPage({ ...paper, release: true }, null, 'x'),
  'of a link that ended': endedLinkPage(firm, false),
  'of a link that was taken back': endedLinkPage(firm, true),
  'of a link that opens nothing': unknownLinkPage(firm),
  'of a job that was cancelled': cancelledPage(firm),
  'to report a problem': reportPage({ ...report, reports: [told] }, once),
  'with a report not sent': reportPage({ ...report, reports: [] }, { ...once, sent: null, typed: notSent }),
  'after a decision': afterPage(after as never, null),
  'on complaints': processPage({
    ...firm,
    phone: '555-0100',
    email: 'a@b.example',
    terms: { acknowledge: within, triage: within, visit: within, decision: within },
    appealDays: 30,
    decideDays: 10,
    checkDays: 60,
  } as never),
  'to check a fingerprint': verifyPage('', null),
};
