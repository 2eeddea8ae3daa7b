// The letters about settling a claim: an offer, and the private link to the settlement release.
import { QUESTIONS, template } from './template.ts';

const OF_CALLBACK = { address: 'address of the property', number: 'number of the callback' } as const;

export const SETTLEMENT_LETTERS = {
  settlement_offer: template(
    'An offer to settle',
    { ...OF_CALLBACK, offer: 'what is offered', until: 'last day of the offer', settle: 'that it is made to settle' },
    {
      subject: 'Our offer about number {{number}}',
      paragraphs: [
        'We write this without admission of responsibility.',
        'You told us of a problem at {{address}} (number {{number}}). We have looked into it.',
        '{{offer}}',
        '{{settle}}',
        'The offer stands through {{until}}. You may ask an attorney before you answer.',
        ...QUESTIONS,
      ],
      must: ['offer', 'until', 'settle'],
    },
  ),
  settlement_release: template(
    'The link to a settlement release',
    { ...OF_CALLBACK, link: 'the private link', settle: 'that it is made to settle' },
    {
      subject: 'Please read and sign: number {{number}}',
      paragraphs: [
        'We write this without admission of responsibility.',
        'This is the paper that settles what you told us of {{address}} (number {{number}}). Please read it at your leisure. You need not sign it, and you may ask an attorney first.',
        '{{link}}',
        'This link is for you alone; please do not pass it on. If you would rather sign on paper, tell us.',
        '{{settle}}',
        ...QUESTIONS,
      ],
      must: ['link'],
    },
  ),
} as const;
