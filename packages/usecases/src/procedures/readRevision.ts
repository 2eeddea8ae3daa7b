// Reads of one revision: its steps in words, what is different in it, who has acknowledged it.
import { compareRevisions } from '@backsight/domain/procedures/compare';
import { stillOpen } from '@backsight/domain/procedures/questions';
import type { Reader } from '@backsight/store/database';
import { qualificationKinds } from '@backsight/store/people/credentials';
import { listKitKinds } from '@backsight/store/people/kit';
import {
  acknowledgementsOf,
  answersOf,
  findRevision,
  listProcedures,
  revisionsOf,
  roundsOf,
  stepsOf,
} from '@backsight/store/procedures/book';
import type { Actor } from '../run.ts';
import { comparisonJson, isInForce, revisionJson, stepJson } from './inWords.ts';
import { draftContext, newestOf } from './steps/facts.ts';
import { stepNames } from './steps/stepNames.ts';

type Asked = { id: string; now: Date };

/** Whether somebody drafts and approves, and so sees right answers and who gave wrong ones. */
const edits = (actor: Actor): boolean =>
  actor.kind === 'person' && actor.roles.some((role) => role === 'owner' || role === 'lead_inspector');

const byKey = (kinds: readonly { key: string; name: string }[]): Record<string, string> =>
  Object.fromEntries(kinds.map(({ key, name }) => [key, name]));

/** The revision with its steps; for a draft also what stands in the way of approval and whether another was approved meanwhile. */
export async function readRevision(reader: Reader, { id, now, actor }: Asked & { actor: Actor }) {
  const row = await findRevision(reader, id);
  if (!row) return null;
  const [steps, names, procedures] = [await stepsOf(reader, id), await stepNames(reader, now), await listProcedures(reader)];
  const { problems } = row.state === 'draft' ? await draftContext(reader, row, steps, now) : { problems: [] };
  return {
    ...revisionJson(row),
    procedure: procedures.find((one) => one.id === row.procedureId)!,
    inForce: isInForce(row, now),
    newestId: newestOf(await revisionsOf(reader, row.procedureId))?.id ?? null,
    steps: steps.map((step) => stepJson(step, names, steps)),
    problems,
    questions: edits(actor) ? row.questions : null,
    serviceNames: names.services,
    kitNames: byKey(await listKitKinds(reader)),
    qualificationNames: byKey(await qualificationKinds(reader)),
    stepTitles: names.steps,
  };
}

/** What is different in a revision against the one it is based on. */
export async function readComparison(reader: Reader, { id, now }: Asked) {
  const row = await findRevision(reader, id);
  if (!row) return null;
  const before = row.basedOnId === null ? null : await findRevision(reader, row.basedOnId);
  const [old, fresh, names] = [before ? await stepsOf(reader, before.id) : [], await stepsOf(reader, id), await stepNames(reader, now)];
  return {
    revision: revisionJson(row),
    before: before ? { id: before.id, number: before.number } : null,
    ...comparisonJson(compareRevisions(old, fresh, names), names, old, fresh),
    questions: row.questions.map(({ right: _, options, ...question }) => ({ ...question, options: [...options] })),
  };
}

/** Every inspector with the acknowledgement or without, how the questions went, and which of them are still open for whoever asks. */
export async function readAcknowledgements(reader: Reader, { id, now, actor }: Asked & { actor: Actor }) {
  const row = await findRevision(reader, id);
  if (!row) return null;
  const [people, rounds] = [await acknowledgementsOf(reader, id, now), await roundsOf(reader, id)];
  const me = actor.kind === 'person' ? actor.id : '';
  return {
    asked: row.asks && row.state === 'approved',
    acknowledgeBy: row.acknowledgeBy?.toISOString() ?? null,
    open: stillOpen(row.questions, me === '' ? [] : await answersOf(reader, id, me)).map(({ key }) => key),
    people: people.map(({ personId, name, happenedAt, where }) => {
      const given = rounds.find((one) => one.personId === personId);
      const seen = edits(actor) || personId === me;
      return {
        ...{ personId, name, happenedAt: happenedAt?.toISOString() ?? null, where },
        wrong: seen ? (given?.wrong ?? 0) : null,
        rounds: seen ? (given?.rounds ?? 0) : null,
      };
    }),
  };
}
