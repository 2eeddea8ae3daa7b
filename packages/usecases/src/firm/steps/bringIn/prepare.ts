// Reads every row of a spreadsheet and holds it against what is on file. It writes nothing: the check and the bringing in both begin here.
import { jobDraft, partyDraft, personDraft, propertyDraft } from './drafts.ts';
import { judgeJobs } from './judgeJobs.ts';
import { judgeClients } from './judgeParties.ts';
import { judgePeople } from './judgePeople.ts';
import { judgeHouses } from './judgeProperties.ts';
import { lineOf, type Line, type Problem } from './line.ts';
import type { Context, Prepared } from './prepared.ts';
import { markedLines, type Sheet } from './sheet.ts';

const ROWS_AT_ONCE = 1_000;

/** Lets others who wait for this process come in between. */
const breathe = (): Promise<void> => new Promise((resolve) => void setImmediate(resolve));

/** What the rows would become; `context.tell` hears how far it is. */
export async function prepare(context: Context, sheet: Sheet): Promise<Prepared> {
  const marked = markedLines(sheet);
  const problems: Problem[] = [];
  const drafts: { draft: unknown; line: Line }[] = [];
  for (const [at, row] of sheet.rows.entries()) {
    if (at % ROWS_AT_ONCE === 0) {
      await breathe();
      await context.tell('reading', at, sheet.rows.length);
    }
    const line = lineOf(row, context.mapped, problems);
    for (const { text, stops } of marked.get(row.line) ?? []) line[stops ? 'stop' : 'look']('', text);
    const draft = draftOf(context, line);
    if (draft !== null && line.goes()) drafts.push({ draft, line });
  }
  await context.tell('comparing', 0, drafts.length);
  const judged = { people: [], parties: [], properties: [], jobs: [], ...(await judge(context, drafts)) };
  return { ...judged, problems: problems.toSorted((a, b) => a.line - b.line), counts: countsOf(context, sheet, problems, judged) };
}

function draftOf({ mapped, today }: Context, line: Line): unknown {
  switch (mapped.kind) {
    case 'people':
      return personDraft(line, mapped);
    case 'clients':
      return partyDraft(line);
    case 'properties':
      return propertyDraft(line);
    case 'jobs':
      return jobDraft(line, mapped, today);
  }
}

async function judge(context: Context, drafts: { draft: unknown; line: Line }[]): Promise<Partial<Prepared>> {
  const of = <T>() => drafts as { draft: T; line: Line }[];
  switch (context.mapped.kind) {
    case 'people':
      return { people: await judgePeople(context, of()) };
    case 'clients':
      return { parties: await judgeClients(context, of()) };
    case 'properties':
      return { properties: await judgeHouses(context, of()) };
    case 'jobs':
      return judgeJobs(context, of());
  }
}

type Judged = Pick<Prepared, 'people' | 'parties' | 'properties' | 'jobs'>;

function countsOf({ mapped: { kind } }: Context, sheet: Sheet, problems: readonly Problem[], judged: Judged): Prepared['counts'] {
  const linesOf = (weight: Problem['weight']): number =>
    new Set(problems.filter((one) => one.weight === weight).map(({ line }) => line)).size;
  const fresh = { people: judged.people, clients: judged.parties, properties: judged.properties, jobs: judged.jobs }[kind].length;
  const along = kind === 'jobs';
  return {
    ...{ rows: sheet.rows.length, fresh, known: linesOf('known'), left: linesOf('stops'), look: linesOf('look') },
    ...{ clients: along ? judged.parties.length : 0, properties: along ? judged.properties.length : 0 },
  };
}
