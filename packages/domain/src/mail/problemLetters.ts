// The letters about a reported problem: each opens without admission of responsibility, and says only what is in the file.
import { QUESTIONS, template } from './template.ts';

/** Stands first in every letter about a problem: hearing it, or deciding about it, admits nothing. An attorney's wording may take its place. */
const WITHOUT_ADMISSION = 'We write this without admission of responsibility.';

const OF_CALLBACK = { address: 'address of the property', number: 'number of the callback' } as const;
const PROCESS = 'where it stands how a complaint is handled';
const APPEAL = 'how and until when one may ask an owner to look at it again';
const SAID = 'what was said, and when';

export const LETTERS = {
  callback_acknowledgement: template(
    'A report of a problem was received',
    { ...OF_CALLBACK, process: PROCESS },
    {
      subject: 'Your report of a problem, number {{number}}',
      paragraphs: [
        WITHOUT_ADMISSION,
        'We received what you told us about {{address}}. Its number is {{number}}. Somebody will be in touch with you about it.',
        'Reporting a problem does not mean that we accept responsibility; please do not repair before we or your insurer have seen it, unless to prevent danger or more damage: then photograph first.',
        'If anybody is in danger, call 911. We are no emergency service.',
        '{{process}}',
        '{{firm}}\n{{firm_phone}}',
      ],
      optional: ['process'],
      must: ['number'],
    },
  ),
  question_acknowledgement: template('A question was received', OF_CALLBACK, {
    subject: 'Your question, number {{number}}',
    paragraphs: ['we received your question about {{address}}. Its number is {{number}}. We will answer it.', '{{firm}}\n{{firm_phone}}'],
    must: ['number'],
  }),
  // Access before repair, emergencies excepted, and photographs then: custom of the trade (common practice).
  callback_access: template(
    'A request to see a problem before it is repaired',
    { ...OF_CALLBACK, said: SAID, process: PROCESS },
    {
      subject: 'Please let us see it first, number {{number}}',
      paragraphs: [
        WITHOUT_ADMISSION,
        '{{said}}',
        'Please do not have it repaired before we or your insurer have seen it. The one exception is to prevent danger or more damage. Then photograph it first, and keep the parts that are taken out.',
        'We would like to see it soon. Please tell us two or three days in the next two weeks that suit you, and at what hours. Call us at {{firm_phone}}, or answer this letter.',
        'Is anybody in danger? Leave, and call 911. We are no emergency service.',
        '{{process}}',
        '{{firm}}',
      ],
      optional: ['process'],
      must: ['said'],
    },
  ),
  callback_visit: template(
    'A visit about a problem',
    { ...OF_CALLBACK, appointment: 'day and time', coming: 'who comes', look_at: 'what will be looked at' },
    {
      subject: 'We come to look at it, number {{number}}',
      paragraphs: [
        WITHOUT_ADMISSION,
        'We come to {{address}} on {{appointment}}. {{coming}}',
        'We will look at this: {{look_at}}.',
        'Please see to it that we can get to it, and that water, power and gas are on. Nothing is charged for this visit.',
        ...QUESTIONS,
      ],
      must: ['appointment'],
    },
  ),
  decision: template(
    'A decision about a callback',
    { ...OF_CALLBACK, decision: 'what was decided, as written for this letter', appeal: APPEAL },
    {
      subject: 'About your report of a problem, number {{number}}',
      paragraphs: [
        WITHOUT_ADMISSION,
        'You told us of a problem at {{address}} (number {{number}}). We have looked into it.',
        '{{decision}}',
        '{{appeal}}',
        ...QUESTIONS,
      ],
      optional: ['appeal'],
      must: ['decision'],
    },
  ),
  callback_closing: template(
    'A callback is closed',
    {
      ...OF_CALLBACK,
      closed: 'day on which it was closed',
      check: 'when we ask whether it held',
      ask: 'the one question, and the private link',
      appeal: APPEAL,
    },
    {
      subject: 'Closed: your report of a problem, number {{number}}',
      paragraphs: [
        WITHOUT_ADMISSION,
        'Your report of a problem at {{address}} (number {{number}}) was closed on {{closed}}.',
        '{{check}}',
        '{{ask}}',
        '{{appeal}}',
        ...QUESTIONS,
      ],
      optional: ['check', 'ask', 'appeal'],
      must: ['number'],
    },
  ),
  callback_appeal: template(
    'The result of an appeal',
    { ...OF_CALLBACK, received: 'day on which the appeal came in', result: 'what was decided', reasons: 'why, and who decided' },
    {
      subject: 'We looked again, number {{number}}',
      paragraphs: [
        WITHOUT_ADMISSION,
        'On {{received}} you asked us to look again at what we decided about {{address}} (number {{number}}).',
        '{{result}}',
        '{{reasons}}',
        ...QUESTIONS,
      ],
      must: ['result'],
    },
  ),
} as const;
