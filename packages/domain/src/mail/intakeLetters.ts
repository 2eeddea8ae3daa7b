// Mails to whoever asks about a report or wants to report something: the answer, and the private link.
import { QUESTIONS, template } from './template.ts';

export const INTAKE_LETTERS = {
  question_answer: template(
    'The answer to a question about a report',
    { address: 'address of the property', number: 'number of the question', answer: 'the answer, as written' },
    {
      subject: 'Our answer to your question, number {{number}}',
      paragraphs: [
        'you asked us about the report on {{address}} (number {{number}}).',
        '{{answer}}',
        'Do you think that something was missed, said wrongly or damaged? Then please tell us so.',
        ...QUESTIONS,
      ],
      must: ['answer'],
    },
  ),
  report_link: template(
    'A private link to report a problem',
    { address: 'address of the property', job: 'number of the job', link: 'the private link' },
    {
      subject: 'Your link to report a problem, job {{job}}',
      paragraphs: [
        'on this page you can tell us of a problem at {{address}}, ask about our report, and add photos:',
        '{{link}}',
        'Reporting a problem does not mean that we accept responsibility; please do not repair before we or your insurer have seen it, unless to prevent danger or more damage: then photograph first.',
        'Is anybody in danger? Leave, and call 911. We are no emergency service.',
        'This link is for you alone; please do not pass it on. A link that we sent before opens nothing any more.',
        ...QUESTIONS,
      ],
      must: ['link'],
    },
  ),
} as const;
