// How a mail went, in words.
import type { MailShown } from '@backsight/contract/mail';

export const STATES: Record<MailShown['state'], string> = {
  waiting: 'waiting',
  sent: 'sent',
  kept: 'kept here: no mail server is set',
  given_up: 'given up',
  refused: 'refused for good',
  bounced: 'came back',
};
