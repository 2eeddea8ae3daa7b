// Every kind of mail that goes to people outside the firm: its built-in wording, and the fields that a wording may use.
import { ELSEWHERE_LETTERS } from './elsewhereLetters.ts';
import { INTAKE_LETTERS } from './intakeLetters.ts';
import { LETTERS } from './problemLetters.ts';
import { SETTLEMENT_LETTERS } from './settlementLetters.ts';
import { QUESTIONS, template, type Template } from './template.ts';

export type { Template };

const OF_JOB = { address: 'address of the property', job: 'number of the job' } as const;
const COMING = 'who comes, when the client is to be there, and who attends';

const LINK = '{{link}}';
const FOR_YOU_ALONE =
  'This link is for you alone; please do not pass it on. If you would rather sign on paper, tell us and we bring it along.';

const VISITS = {
  confirmation: template(
    'Confirmation of an appointment',
    { ...OF_JOB, what: 'what is done', appointment: 'day and time', coming: COMING, charge: 'that nothing is charged, where that is so' },
    {
      subject: 'Your appointment, job {{job}}',
      paragraphs: ['we come to {{address}} ({{what}}) on {{appointment}}.', '{{coming}}', '{{charge}}', ...QUESTIONS],
      optional: ['coming', 'charge'],
      must: ['appointment'],
    },
  ),
  move: template(
    'An appointment was moved',
    {
      ...OF_JOB,
      what: 'what is done',
      appointment: 'the new day and time',
      before: 'the day and time before',
      coming: COMING,
      walk_through: 'when the walk-through with the client begins',
      agreement: 'what becomes of the agreement',
      fee: 'what the move costs',
    },
    {
      subject: 'The new time of your appointment, job {{job}}',
      paragraphs: [
        'the appointment at {{address}} ({{what}}) was moved. The new time is {{appointment}}. It was {{before}}.',
        '{{coming}}',
        '{{walk_through}}',
        '{{agreement}}',
        '{{fee}}',
        ...QUESTIONS,
      ],
      optional: ['coming', 'walk_through', 'agreement', 'fee'],
      must: ['appointment'],
    },
  ),
  who_comes: template(
    'Who comes changed, the time did not',
    { ...OF_JOB, appointment: 'day and time', coming: COMING },
    {
      subject: 'Who comes to your appointment, job {{job}}',
      paragraphs: ['about the appointment at {{address}} on {{appointment}}: the time stays as it is.', '{{coming}}', ...QUESTIONS],
      optional: ['coming'],
    },
  ),
  cancellation: template(
    'An appointment was cancelled',
    {
      ...OF_JOB,
      appointment: 'day and time that it was to be',
      signing: 'that nothing is left to sign',
      money: 'what is charged or given back',
    },
    {
      subject: 'Your appointment is cancelled, job {{job}}',
      paragraphs: [
        'the appointment for the inspection of {{address}} was cancelled. It was to be on {{appointment}}.',
        '{{signing}}',
        '{{money}}',
        ...QUESTIONS,
      ],
      optional: ['signing'],
    },
  ),
} as const;

const ON_THE_WAY = {
  running_late: template(
    'The pair is running late',
    { ...OF_JOB, booked: 'time that was booked', expected: 'time at which the pair is expected now' },
    {
      subject: 'Running late today, job {{job}}',
      paragraphs: [
        'our inspectors are running late today. At {{address}} they were to begin at {{booked}}; please expect them at about {{expected}}.',
        'Nothing else changes, and we are sorry for the wait.',
        'Does this not suit you? Please call us at {{firm_phone}}.',
        '{{firm}}',
      ],
      must: ['expected'],
    },
  ),
  // 48 hours at least: Wisconsin Department of Health Services. Twelve hours closed before, going in and out as usual, heating and
  // cooling as usual, and no fans or fireplaces that draw air from outside: common practice, from memory.
  closed_house: template(
    'Please close the house before a radon test',
    {
      ...OF_JOB,
      placed_at: 'when the monitor is placed',
      close_from: 'from when on the house is closed',
      hours: 'hours that it is closed before',
      shortest_hours: 'hours that the test runs at least',
    },
    {
      subject: 'Please close the house before the radon test, job {{job}}',
      paragraphs: [
        'a radon monitor is placed at {{address}} on {{placed_at}}. It measures what the air in a closed house holds, so please keep the house closed from {{close_from}} on: {{hours}} hours before, and until we collect the monitor, which is {{shortest_hours}} hours later at the soonest.',
        'Keep windows and outer doors shut; going in and out as usual is fine. Heating and cooling run as usual, but no fan that draws air from outside, and no fireplace unless it heats the house. Please do not move the monitor or cover it.',
        'If somebody else lives there, please pass this on to them.',
        'Questions, or was the house open after all? Please call us at {{firm_phone}}; we then place the monitor later.',
        '{{firm}}',
      ],
      must: ['close_from'],
    },
  ),
} as const;

const PAPERS = {
  agreement: template(
    'The agreement to sign',
    { ...OF_JOB, appointment: 'day and time', coming: COMING, link: 'the private link' },
    {
      subject: 'Agreement for your inspection, job {{job}}',
      paragraphs: [
        'please read and sign the agreement for the inspection of {{address}}. {{appointment}}',
        '{{coming}}',
        LINK,
        FOR_YOU_ALONE,
        '{{firm}}\n{{firm_phone}}',
      ],
      optional: ['appointment', 'coming'],
      must: ['link'],
    },
  ),
  signed_copy: template(
    'A copy of what was signed',
    {
      job: OF_JOB.job,
      paper: 'what it is called: agreement or settlement release',
      agreement: 'the paper as it was signed',
      fingerprint: 'its SHA-256 fingerprint',
    },
    {
      subject: 'Your signed {{paper}}, job {{job}}',
      paragraphs: [
        'thank you for signing. This is the {{paper}} as you signed it; please keep it.',
        '{{agreement}}',
        'Fingerprint (SHA-256): {{fingerprint}}',
      ],
      must: ['agreement', 'fingerprint'],
    },
  ),
  receipt: template(
    'Receipt for a payment',
    {
      address: OF_JOB.address,
      invoice: 'number of the invoice',
      amount: 'what was paid',
      received: 'day on which it came in',
      method: 'how it was paid',
      balance: 'what is still open',
    },
    {
      subject: 'Receipt for invoice {{invoice}}',
      paragraphs: [
        'we received {{amount}} ({{method}}) on {{received}} for invoice {{invoice}}, {{address}}.',
        '{{balance}}',
        'Thank you.',
        '{{firm}}',
      ],
      must: ['amount', 'invoice'],
    },
  ),
  certificate: template(
    "The insurer's certificate",
    { ...OF_JOB, policies: 'which insurance it is about' },
    {
      subject: 'Certificate of insurance, job {{job}}',
      paragraphs: [
        'enclosed you find our certificate of insurance ({{policies}}), as asked for with the inspection of {{address}}.',
        ...QUESTIONS,
      ],
    },
  ),
} as const;

const REMINDERS = {
  reminder_signing: template('Reminder to sign', PAPERS.agreement.fields, {
    subject: 'Still to sign: the agreement for your inspection, job {{job}}',
    paragraphs: [
      'the agreement for the inspection of {{address}} is not signed yet, and we may not begin without it. {{appointment}}',
      LINK,
      `This link takes the place of the one that we sent you before. ${FOR_YOU_ALONE}`,
      '{{firm}}\n{{firm_phone}}',
    ],
    optional: ['appointment', 'coming'],
    must: ['link'],
  }),
  reminder_payment: template(
    'Reminder to pay',
    { address: OF_JOB.address, invoice: 'number of the invoice', open: 'what is still open', due: 'that it is or was due, and when' },
    {
      subject: 'Invoice {{invoice}}',
      paragraphs: [
        'of invoice {{invoice}} for the inspection of {{address}}, {{open}} is still open. {{due}}',
        'If you have paid meanwhile, thank you; then nothing is left to do.',
        ...QUESTIONS,
      ],
      must: ['open'],
    },
  ),
  reminder_day_before: template(
    'Reminder on the day before',
    { ...OF_JOB, what: 'what is done', appointment: 'day and time', coming: COMING },
    {
      subject: 'Tomorrow: your appointment, job {{job}}',
      paragraphs: [
        'tomorrow we come to {{address}} ({{what}}): {{appointment}}.',
        '{{coming}}',
        'Please see to it that we can get in, and that water, power and gas are on.',
        ...QUESTIONS,
      ],
      optional: ['coming'],
      must: ['appointment'],
    },
  ),
} as const;

export const TEMPLATES = {
  ...VISITS,
  ...ON_THE_WAY,
  ...PAPERS,
  ...REMINDERS,
  ...SETTLEMENT_LETTERS,
  ...LETTERS,
  ...INTAKE_LETTERS,
  ...ELSEWHERE_LETTERS,
} satisfies Record<string, Template>;
export type MailKind = keyof typeof TEMPLATES;
export const MAIL_KINDS = Object.keys(TEMPLATES) as [MailKind, ...MailKind[]];
