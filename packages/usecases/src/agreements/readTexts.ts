// What is read about agreement texts: the list, one in full, two side by side, and how one reads for a job.
import { compareTexts, limitsInWords, whenInWords } from '@backsight/domain/agreements/compareTexts';
import { NOT_REVIEWED, PLACEHOLDERS, renderAgreement } from '@backsight/domain/agreements/render';
import type { Clause, TextContent } from '@backsight/domain/agreements/text';
import { lockedChanges } from '@backsight/domain/agreements/textLife';
import { checkText } from '@backsight/domain/agreements/textChecks';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { markdownBlocks } from '@backsight/documents/pdf/markdown';
import { findJobForAgreement, findJobIdByNumber } from '@backsight/store/agreements/job';
import { findText, listTexts, setAsideFor, textInForce, type TextRow } from '@backsight/store/agreements/texts';
import type { Reader } from '@backsight/store/database';
import { listServices } from '@backsight/store/jobs/services';
import { textBreaksOn } from './steps/textBreaks.ts';
import { textsThatLock } from './steps/textsThatLock.ts';
import { writtenFor } from './steps/writtenFor.ts';

const iso = (at: Date | null): string | null => at?.toISOString() ?? null;

const lineOf = (
  { clauses, limits, consentText: _, approvedAt, inForceFrom, withdrawnAt, recordedAt, ...line }: TextRow,
  inForce: boolean,
) => ({
  ...line,
  inForce,
  clauseCount: clauses.length,
  limits: limitsInWords(limits),
  approvedAt: iso(approvedAt),
  inForceFrom: iso(inForceFrom),
  withdrawnAt: iso(withdrawnAt),
  recordedAt: recordedAt.toISOString(),
});

const idsInForce = async (reader: Reader, now: Date): Promise<Set<string | undefined>> =>
  new Set([(await textInForce(reader, 'inspection', now))?.id, (await textInForce(reader, 'reinspection', now))?.id]);

/** All of them, newest first. */
export async function readTexts(reader: Reader, now: Date) {
  const inForce = await idsInForce(reader, now);
  return (await listTexts(reader)).map((row) => lineOf(row, inForce.has(row.id)));
}

const namesOfServices = async (reader: Reader): Promise<Record<string, string>> =>
  Object.fromEntries((await listServices(reader)).map(({ key, name }) => [key, name]));

const inFull = (clause: Clause, names: Record<string, string>) => ({
  ...clause,
  when: whenInWords(clause, names),
  blocks: markdownBlocks(clause.body),
});

/** One text with its clauses in words, and the rules of states that it goes against now. */
export async function readText(reader: Reader, { id, now }: { id: string; now: Date }) {
  const row = await findText(reader, id);
  if (!row) return null;
  const serviceNames = await namesOfServices(reader);
  return {
    ...lineOf(row, (await idsInForce(reader, now)).has(row.id)),
    consentText: row.consentText,
    limitsSet: row.limits,
    lockedChanged: row.state === 'draft' ? lockedChanges(await textsThatLock(reader, row, now), row.clauses) : [],
    lockedHere: row.state === 'draft' ? [...new Set((await textsThatLock(reader, row, now)).flatMap(({ locked }) => locked))] : row.locked,
    clauses: row.clauses.map((clause) => inFull(clause, serviceNames)),
    breaks: (await textBreaksOn(reader, row, row.inForceFrom !== null && row.inForceFrom > now ? row.inForceFrom : now)).map(
      ({ packId: _, ...found }) => found,
    ),
    setAside: (await setAsideFor(reader, id)).map(({ happenedAt, ...row }) => ({ ...row, happenedAt: happenedAt.toISOString() })),
    serviceNames,
    fields: Object.entries(PLACEHOLDERS).map(([name, about]) => ({ name, about })),
  };
}

/** What is different in a text against another. */
export async function readTextComparison(reader: Reader, { id, withId }: { id: string; withId: string }) {
  const [before, after] = [await findText(reader, withId), await findText(reader, id)];
  if (!before || !after) return null;
  const names = await namesOfServices(reader);
  const { clauses, ...comparison } = compareTexts(before, after, names);
  return {
    before: { id: before.id, number: before.number, title: before.title },
    after: { id: after.id, number: after.number, title: after.title },
    ...comparison,
    clauses: clauses.map(({ before: was, after: now, ...one }) => ({
      ...one,
      before: was && { title: was.title, body: was.body, when: whenInWords(was, names) },
      after: now && { title: now.title, body: now.body, when: whenInWords(now, names) },
    })),
  };
}

/** How a text reads for a job, whether it is kept yet or not. Refuses what could not be issued either. */
export async function previewText(
  reader: Reader,
  { jobNumber, now, ...content }: TextContent & { jobNumber: number; now: Date },
): Promise<Outcome<Preview>> {
  const services = await listServices(reader);
  const sound = checkText(
    content,
    services.map(({ key }) => key),
  );
  if (!sound.ok) return sound;
  const jobId = await findJobIdByNumber(reader, jobNumber);
  const job = jobId === null ? null : await findJobForAgreement(reader, jobId);
  if (!job) return refuse('not-found', { thing: 'job' }, 'jobNumber');
  const written = await writtenFor(reader, job, content, now);
  const rendered = renderAgreement({ body: written.template, reviewed: false }, written.facts);
  if (!rendered.ok) return rendered;
  return accept({
    job: { number: job.number, address: job.address },
    blocks: markdownBlocks(rendered.value),
    clauses: written.clauses.map(({ clause: { key, title }, applies }) => ({ key, title, applies })),
    breaks: (await textBreaksOn(reader, content, now)).map(({ packId: _, ...found }) => found),
    warnings: written.warnings,
    notReviewed: NOT_REVIEWED,
  });
}

type Found = Omit<Awaited<ReturnType<typeof textBreaksOn>>[number], 'packId'>;
type Preview = {
  job: { number: number; address: string };
  blocks: ReturnType<typeof markdownBlocks>;
  clauses: { key: string; title: string; applies: 'yes' | 'no' | 'unknown' }[];
  breaks: Found[];
  warnings: { code: string; text: string }[];
  notReviewed: string;
};
