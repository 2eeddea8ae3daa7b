// The quarter on paper for the owner: money, what came and what is open, decisions, development, steps, changes, what closes, and cautions.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { findFirm } from '@backsight/store/firm';
import type { Reader } from '@backsight/store/database';
import { letterhead } from '../../firm/steps/letterhead.ts';
import { quarterBlocks } from './quarterBlocks.ts';
import { quarterFacts, quarterSpan } from './quarterFacts.ts';

/** Refusals: quarter-not-begun. */
export async function quarterReport(reader: Reader, { quarter, now }: { quarter: string; now: Date }): Promise<Outcome<PdfFile>> {
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const today = DateTime.fromJSDate(now, { zone }).toISODate()!;
  if (quarterSpan(quarter).now.from > today) return refuse('quarter-not-begun', {}, 'quarter');
  const facts = await quarterFacts(reader, { quarter, today, now, zone });
  const bytes = await pdfOf({
    ...(await letterhead(reader, now, null)),
    title: `Liabilities, quarter ${quarter.slice(6)} of ${quarter.slice(0, 4)}`,
    foot: 'For the owner alone. Not an actuarial opinion.',
    blocks: quarterBlocks(facts),
  });
  return accept({ name: `liabilities-${quarter}.pdf`, bytes });
}
