// Letters to clients of other jobs on which the same may have been missed: what to look at, and no admission.
import { QUESTIONS, template } from './template.ts';

const FIELDS = {
  address: 'address of the property',
  job: 'number of the job',
  words: 'what may be so, and what to do, as written for this letter',
} as const;
const WITHOUT_ADMISSION = 'We write this so that it can be looked at, and without admission of responsibility.';

export const ELSEWHERE_LETTERS = {
  same_elsewhere: template('Something to look at, found on another job', FIELDS, {
    subject: 'Something to look at: our inspection, job {{job}}',
    paragraphs: [
      'we inspected {{address}} (job {{job}}). Since then we have learnt of something that you may wish to look at:',
      '{{words}}',
      WITHOUT_ADMISSION,
      ...QUESTIONS,
    ],
    must: ['words'],
  }),
  danger_elsewhere: template('A possible danger, found on another job', FIELDS, {
    subject: 'A possible danger: please read now, job {{job}}',
    paragraphs: [
      'we inspected {{address}} (job {{job}}). Since then we have learnt of a possible danger to people:',
      '{{words}}',
      'If anybody is in danger now, leave and call 911. We are no emergency service.',
      WITHOUT_ADMISSION,
      ...QUESTIONS,
    ],
    must: ['words'],
  }),
} as const;
