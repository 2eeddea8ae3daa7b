// The words of the mails that tell a client that an appointment was cancelled or moved.
import { formatUsd } from '../shared/money.ts';

type Sender = { firm: string; firmPhone: string };

const letter = (name: string, paragraphs: readonly (string | null)[], { firm, firmPhone }: Sender): string =>
  [`Dear ${name},`, ...paragraphs.filter((text) => text !== null), `Questions? Please call us at ${firmPhone}.`, firm].join('\n\n');

export type Cancelled = Sender & { name: string; address: string; appointment: string; paidCents: number; askedToSign: boolean };

/** Says that the appointment does not take place; `paidCents` is what this person paid and gets back. */
export const cancelledMail = (m: Cancelled): string =>
  letter(
    m.name,
    [
      `the appointment for the inspection of ${m.address} was cancelled. It was to be on ${m.appointment}.`,
      m.askedToSign ? 'There is nothing left to sign; the link that we sent you is closed.' : null,
      m.paidCents > 0
        ? `You have paid ${formatUsd(m.paidCents)}. We give it back to you, and no invoice stays open.`
        : 'Nothing is left to pay.',
    ],
    m,
  );

export type Moved = Sender & {
  name: string;
  what: string;
  address: string;
  before: string;
  after: string;
  pair: readonly string[];
  agreement: 'stands' | 'new' | 'none';
};

const ABOUT_AGREEMENT: Record<Moved['agreement'], string | null> = {
  stands: 'The agreement as signed stays in force; only the time is the new one.',
  new: 'The agreement names the time, so you get a new one to read and sign in a mail of its own.',
  none: null,
};

/** Says the new time of an appointment, who comes, and what becomes of the agreement. */
export const movedMail = (m: Moved): string =>
  letter(
    m.name,
    [
      `the appointment at ${m.address} (${m.what}) was moved. The new time is ${m.after}. It was ${m.before}.`,
      m.pair.length > 0 ? `${m.pair.join(' and ')} will come.` : null,
      ABOUT_AGREEMENT[m.agreement],
    ],
    m,
  );
