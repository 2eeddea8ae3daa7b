// Answers about revisions: which is in force, with which steps, and who has not acknowledged it.
import type { Answer } from '../answer.ts';
import { all, by, one, type Row, type Tables } from '../tables.ts';
import { dayOf, isoDay, sortBy } from '../when.ts';

export const stepsOf = (t: Tables, revisionId: string): unknown[] =>
  sortBy(by(t, 'revisionStep', 'revisionId', revisionId), ({ position }) => position).map(({ body }) => body);

const periodsAt = (t: Tables, at: Date): Row[] =>
  all(t, 'inForcePeriod').filter((f) => f.fromAt <= at && (f.untilAt === null || f.untilAt > at));

function inForce(t: Tables, [at]: readonly string[]) {
  const rows = periodsAt(t, new Date(at!)).map((f) => ({
    f,
    r: one(t, 'procedureRevision', f.revisionId)!,
    p: one(t, 'procedure', f.procedureId)!,
  }));
  return sortBy(
    rows,
    ({ p }) => p.position,
    ({ p }) => p.key,
  ).map(({ f, r, p }) => ({
    procedureId: p.id,
    procedureKey: p.key,
    title: p.title,
    system: p.system,
    revisionId: r.id,
    number: r.number,
    inForceFrom: f.fromAt,
    acknowledgeBy: r.acknowledgeBy,
    steps: stepsOf(t, r.id),
  }));
}

function missing(t: Tables, [at]: readonly string[]) {
  const now = new Date(at!);
  const inspectors = all(t, 'person').filter(
    (w) =>
      (w.endedOn === null || isoDay(w.endedOn)! > dayOf(now, 'UTC')) &&
      by(t, 'personRole', 'personId', w.id).some(({ role }) => role === 'inspector'),
  );
  const asked = periodsAt(t, now)
    .map((f) => one(t, 'procedureRevision', f.revisionId)!)
    .filter(({ asks }) => asks);
  const rows = asked.flatMap((r) => {
    const said = new Set(by(t, 'acknowledgement', 'revisionId', r.id).map(({ personId }) => personId));
    const p = one(t, 'procedure', r.procedureId)!;
    return inspectors
      .filter(({ id }) => !said.has(id))
      .map((w) => ({
        personId: w.id,
        revisionId: r.id,
        procedureTitle: p.title,
        number: r.number,
        acknowledgeBy: r.acknowledgeBy,
        position: p.position,
        name: w.name,
      }));
  });
  return sortBy(
    rows,
    (r) => r.acknowledgeBy.getTime(),
    (r) => r.position,
    (r) => r.name,
  );
}

const frozen = (t: Tables, [ids]: readonly any[]) =>
  sortBy(
    (ids as string[]).map((id) => one(t, 'procedureRevision', id)!),
    (r) => one(t, 'procedure', r.procedureId)!.position,
  ).map((r) => {
    const { key, title, system } = one(t, 'procedure', r.procedureId)!;
    return { procedureKey: key, title, system, revisionId: r.id, number: r.number, steps: stepsOf(t, r.id) };
  });

const closePeriods = (t: Tables, [procedureId, untilAt]: readonly string[]) =>
  by(t, 'inForcePeriod', 'procedureId', procedureId)
    .filter((f) => f.untilAt === null)
    .map((f) => (f.untilAt = new Date(untilAt!)));

function revisionOf(t: Tables, r: Row) {
  const name = (id: string | null) => (id === null ? null : (one(t, 'person', id)?.name ?? null));
  return {
    ...r,
    author: name(r.authorId),
    approver: name(r.approverId),
    inForceUntil: one(t, 'inForcePeriod', r.id, 'revisionId')?.untilAt ?? null,
    stepCount: by(t, 'revisionStep', 'revisionId', r.id).length,
  };
}

const lastStep = (t: Tables, key: string) =>
  sortBy(
    by(t, 'revisionStep', 'stepKey', key)
      .map((s) => ({ s, r: one(t, 'procedureRevision', s.revisionId)! }))
      .filter(({ r }) => r.state === 'approved'),
    ({ r }) => -r.number,
  )[0]?.s.body ?? null;

const knownKeys = (t: Tables, [keys]: readonly any[]) =>
  (keys as string[]).flatMap((key) => by(t, 'stepKey', 'key', key)).map((k) => ({ ...k, last: lastStep(t, k.key) }));

function acknowledgements(t: Tables, [revisionId, at]: readonly string[]) {
  const today = dayOf(new Date(at!), 'UTC');
  const rows = all(t, 'person').map((w) => ({ w, k: by(t, 'acknowledgement', 'personId', w.id).find((k) => k.revisionId === revisionId) }));
  const inspects = (w: Row) =>
    (w.endedOn === null || isoDay(w.endedOn)! > today) && by(t, 'personRole', 'personId', w.id).some(({ role }) => role === 'inspector');
  return sortBy(
    rows.filter(({ w, k }) => k !== undefined || inspects(w)),
    ({ w }) => w.name,
  ).map(({ w, k }) => ({ personId: w.id, name: w.name, email: w.email, happenedAt: k?.happenedAt ?? null, where: k?.where ?? null }));
}

const REVISION = 'f.until_at AS "inForceUntil"';

export const PROCEDURE_ANSWERS: readonly Answer[] = [
  {
    marks: ['f.from_at AS "inForceFrom", r.acknowledge_by AS "acknowledgeBy"', 'coalesce((SELECT jsonb_agg(s.body ORDER BY s.position)'],
    reply: inForce,
  },
  { marks: ['w.id::text AS "personId", r.id::text AS "revisionId"'], reply: missing },
  { marks: ['FROM procedure_revision r JOIN procedure p', 'WHERE r.id = ANY($1::uuid[]) ORDER BY p.position'], reply: frozen },
  {
    marks: ['coalesce(max(position), 0)::int AS position FROM procedure'],
    reply: (t) => [{ position: Math.max(0, ...all(t, 'procedure').map(({ position }) => position)) }],
  },
  {
    marks: ['SELECT id::text AS id, key, title, system FROM procedure ORDER BY position, key'],
    reply: (t) => sortBy(all(t, 'procedure'), ({ position }) => position),
  },
  {
    marks: [REVISION, 'WHERE r.procedure_id = $1::uuid'],
    reply: (t, [id]) => sortBy(by(t, 'procedureRevision', 'procedureId', id), (r) => -r.number).map((r) => revisionOf(t, r)),
  },
  { marks: [REVISION, 'WHERE r.id = $1::uuid'], reply: (t, [id]) => by(t, 'procedureRevision', 'id', id).map((r) => revisionOf(t, r)) },
  {
    marks: ['SELECT body FROM revision_step WHERE revision_id = $1::uuid ORDER BY position'],
    reply: (t, [id]) => stepsOf(t, id).map((body) => ({ body })),
  },
  { marks: ['FROM step_key k WHERE k.key = ANY'], reply: knownKeys },
  { marks: ['SELECT 1 AS one FROM procedure WHERE id = $1::uuid FOR UPDATE'], reply: (t, [id]) => by(t, 'procedure', 'id', id) },
  { marks: ['FROM person w LEFT JOIN acknowledgement k'], reply: acknowledgements },
  { marks: ['UPDATE in_force_period SET until_at = $2'], reply: closePeriods },
  {
    marks: ['FROM revision_answer WHERE revision_id = $1::uuid AND person_id = $2::uuid'],
    reply: (t, [revisionId, personId]) =>
      sortBy(
        by(t, 'revisionAnswer', 'revisionId', revisionId).filter((row) => row.personId === personId),
        (row) => row.recordedAt.getTime(),
        (row) => row.id,
      ),
  },
];
