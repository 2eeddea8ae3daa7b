// The book held against published standards of practice: on the screen and on paper.
import { DateTime } from 'luxon';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { coverageBlocks } from '@backsight/documents/papers/coverage';
import { coverageOf, isDuty, type Standard } from '@backsight/domain/procedures/coverage';
import { MET_ELSEWHERE, STANDARDS } from '@backsight/domain/procedures/data/standards';
import type { Procedure } from '@backsight/domain/procedures/step';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { letterhead } from '../firm/steps/letterhead.ts';
import { localDay } from '../firm/steps/localDay.ts';
import { revisionsInForce } from './steps/inForce.ts';
import { ownStandard } from './steps/ownStandard.ts';

/** `jurisdiction` null = the state of the first office whose standard is on file; the first standard when there is none. */
type Ask = { jurisdiction: string | null; now: Date };

async function standardFor(reader: Reader, asked: string | null): Promise<{ standard: Standard | undefined; own: string | null }> {
  const own = await ownStandard(reader);
  const standard = asked === null ? (own ?? STANDARDS[0]) : STANDARDS.find(({ jurisdiction }) => jurisdiction === asked);
  return { standard, own: own?.jurisdiction ?? null };
}

const bookInForce = async (reader: Reader, now: Date): Promise<Procedure[]> =>
  (await revisionsInForce(reader, now)).map(({ procedureKey, title, system, steps }) => ({ key: procedureKey, title, system, steps }));

const open = (standard: Standard, book: readonly Procedure[]): number =>
  coverageOf(standard, book, MET_ELSEWHERE).filter(({ covered }) => !covered).length;

/** Each duty of a standard with the steps in force that carry it out; every standard on file with how many of its duties none does. */
export async function readCoverage(reader: Reader, { jurisdiction, now }: Ask) {
  const { standard, own } = await standardFor(reader, jurisdiction);
  if (!standard) return refuse('not-found', { thing: 'standard' });
  const book = await bookInForce(reader, now);
  const rows = coverageOf(standard, book, MET_ELSEWHERE);
  const { state, name, source } = standard;
  return accept({
    ...{ jurisdiction: standard.jurisdiction, state, standard: name, source, rows },
    own: standard.jurisdiction === own,
    uncovered: rows.filter(({ covered }) => !covered).length,
    standards: STANDARDS.map((one) => ({
      ...{ jurisdiction: one.jurisdiction, state: one.state, uncovered: open(one, book) },
      duties: one.rows.filter(isDuty).length,
    })),
  });
}

/** The same as a paper: the gaps first. */
export async function coveragePaper(reader: Reader, { jurisdiction, now }: Ask): Promise<Outcome<PdfFile>> {
  const { standard } = await standardFor(reader, jurisdiction);
  if (!standard) return refuse('not-found', { thing: 'standard' });
  const { zone } = await localDay(reader, now);
  const day = DateTime.fromJSDate(now, { zone }).setLocale('en-US');
  return accept({
    name: `coverage-${standard.jurisdiction.toLowerCase()}-${day.toISODate()}.pdf`,
    bytes: await pdfOf({
      ...(await letterhead(reader, now, null)),
      title: `Coverage of ${standard.name}`,
      foot: `Steps in force on ${day.toFormat('LLLL d, yyyy')}; duties in our summary, not the words of the rule`,
      blocks: coverageBlocks(standard, coverageOf(standard, await bookInForce(reader, now), MET_ELSEWHERE)),
    }),
  });
}

/** Every duty on file in one line, for those who say which of them a step carries out. */
export const listDuties = () =>
  STANDARDS.flatMap(({ jurisdiction, rows }) =>
    rows.filter(isDuty).map(({ id, citation, requirement }) => ({ id, jurisdiction, words: `${citation}: ${requirement}` })),
  );
