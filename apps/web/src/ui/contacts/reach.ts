// How somebody wants to be reached, in words: shown before every contact.
import { ASSISTANCE, type Assistance } from '@backsight/contract/mail/contacts';

type Reached = { language: string; assistance: Assistance; largePrint: boolean; badAddress: boolean };

/** 'speaks Spanish, interpreter, large print'; empty when nothing is to be minded. */
export const reachWords = ({ language, assistance, largePrint, badAddress }: Reached): string =>
  [
    language === '' ? null : `speaks ${language}`,
    assistance === 'none' ? null : ASSISTANCE[assistance],
    largePrint ? 'large print' : null,
    badAddress ? 'mail came back: ask for another address' : null,
  ]
    .filter((text) => text !== null)
    .join(', ');
