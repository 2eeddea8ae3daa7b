// A letter about a callback on paper, word for word as it was written.
import { DateTime } from 'luxon';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findCallback } from '@backsight/store/callbacks';
import { lettersOf } from '@backsight/store/callbacks/letters';
import type { Reader } from '@backsight/store/database';
import { letterhead } from '../firm/steps/letterhead.ts';
import { localDay } from '../firm/steps/localDay.ts';
import type { Actor } from '../run.ts';
import { isOwner, rolesOf } from './steps/callback.ts';

type Ask = { id: string; letterId: string; actor: Actor };

/** A letter as it left, mailed or for paper. What only the owner sees does not exist for others. Refusal: not-found. */
export async function callbackLetter(reader: Reader, { id, letterId, actor }: Ask): Promise<Outcome<PdfFile>> {
  const callback = await findCallback(reader, id);
  if (!callback || (callback.ownerOnly && !isOwner(rolesOf(actor)))) return refuse('not-found', { thing: 'callback' });
  const written = (await lettersOf(reader, id)).find((one) => one.id === letterId);
  if (!written) return refuse('not-found', { thing: 'letter' });
  const { zone } = await localDay(reader, written.at);
  const head = await letterhead(reader, written.at, callback.jobId);
  const on = DateTime.fromJSDate(written.at, { zone }).setLocale('en-US').toFormat('LLLL d, yyyy');
  return accept({
    name: `callback-${callback.number}-${written.letter}.pdf`,
    bytes: await pdfOf({
      ...head,
      title: written.subject,
      foot: `Callback ${callback.number}`,
      blocks: [
        {
          kind: 'facts',
          pairs: [
            ['To', written.to],
            ['Date', on],
          ],
        },
        ...(written.body ?? '(erased)').split(/\n{2,}/).map((words) => ({ kind: 'text', words }) as const),
      ],
    }),
  });
}
