// A letter about a callback on paper, word for word as it was mailed.
import { DateTime } from 'luxon';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCallback } from '@backsight/store/callbacks';
import type { Reader } from '@backsight/store/database';
import { newestLetter } from '@backsight/store/mail/letters';
import { letterhead } from '../firm/steps/letterhead.ts';
import { localDay } from '../firm/steps/localDay.ts';
import type { Actor } from '../run.ts';
import { isOwner, rolesOf } from './steps/callback.ts';

export const LETTERS = {
  acknowledgement: ['callback_acknowledgement', 'question_acknowledgement'],
  decision: ['decision'],
} as const;

type Ask = { id: string; letter: keyof typeof LETTERS; actor: Actor };

/** The newest letter of the kind. What only the owner sees does not exist for others. Refusal: not-found. */
export async function callbackLetter(reader: Reader, { id, letter, actor }: Ask): Promise<Outcome<PdfFile>> {
  const callback = await findCallback(reader, id);
  if (!callback || (callback.ownerOnly && !isOwner(rolesOf(actor)))) return refuse('not-found', { thing: 'callback' });
  const mail = await newestLetter(reader, { kind: 'callback', id }, LETTERS[letter]);
  if (!mail) return refuse('not-found', { thing: `${letter} letter` });
  const { zone } = await localDay(reader, mail.recordedAt);
  const head = await letterhead(reader, mail.recordedAt, callback.jobId);
  const on = DateTime.fromJSDate(mail.recordedAt, { zone }).setLocale('en-US').toFormat('LLLL d, yyyy');
  return accept({
    name: `callback-${callback.number}-${letter}.pdf`,
    bytes: await pdfOf({
      ...head,
      title: mail.subject,
      foot: `Callback ${callback.number}`,
      blocks: [
        {
          kind: 'facts',
          pairs: [
            ['To', mail.toName],
            ['Date', on],
          ],
        },
        ...mail.body.split(/\n{2,}/).map((words) => ({ kind: 'text', words }) as const),
      ],
    }),
  });
}
