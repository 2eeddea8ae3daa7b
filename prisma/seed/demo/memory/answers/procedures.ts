// Answers about revisions: which is in force, with which steps, and who has not acknowledged it.
import type { Answer } from '../database.ts';
import { all, by, one, type Row, type Tables } from '../tables.ts';
import { dayOf, isoDay, sortBy } from '../when.ts';

export const stepsOf = (t: Tables, revisionId: string): unknown[] => sortBy(by(t, 'revisionStep', 'revisionId', revisionId), ({ position }) => position).map(({ body }) => body);

const periodsAt = (t: Tables, at: Date): Row[] => all(t, 'inForcePeriod').filter((f) => f.fromAt <= at && (f.untilAt === null || f.untilAt > at));

function inForce(t: Tables, [at]: readonly string[]) {
  const rows = periodsAt(t, new Date(at!)).map((f) => ({ f, r: one(t, 'procedureRevision', f.revisionId)!, p: one(t, 'procedure', f.procedureId)! }));
  return sortBy(rows, ({ p }) => p.position, ({ p }) => p.key).map(({ f, r, p }) => ({
    procedureId: p.id, procedureKey: p.key, title: p.title, system: p.system, revisionId: r.id, number: r.number, inForceFrom: f.fromAt, acknowledgeBy: r.acknowledgeBy, steps: stepsOf(t, r.id),
  }));
}

function missing(t: Tables, [at]: readonly string[]) {
  const now = new Date(at!);
  const inspectors = all(t, 'person').filter((w) => (w.endedOn === null || isoDay(w.endedOn)! > dayOf(now, 'UTC')) && by(t, 'personRole', 'personId', w.id).some(({ role }) => role === 'inspector'));
  const asked = periodsAt(t, now).map((f) => one(t, 'procedureRevision', f.revisionId)!).filter(({ number }) => number > 1);
  const rows = asked.flatMap((r) => {
    const said = new Set(by(t, 'acknowledgement', 'revisionId', r.id).map(({ personId }) => personId));
    const p = one(t, 'procedure', r.procedureId)!;
    return inspectors.filter(({ id }) => !said.has(id)).map((w) => ({ personId: w.id, revisionId: r.id, procedureTitle: p.title, number: r.number, acknowledgeBy: r.acknowledgeBy, position: p.position, name: w.name }));
  });
  return sortBy(rows, (r) => r.acknowledgeBy.getTime(), (r) => r.position, (r) => r.name);
}

const frozen = (t: Tables, [ids]: readonly any[]) =>
  sortBy((ids as string[]).map((id) => one(t, 'procedureRevision', id)!), (r) => one(t, 'procedure', r.procedureId)!.position).map((r) => {
    const { key, title, system } = one(t, 'procedure', r.procedureId)!;
    return { procedureKey: key, title, system, revisionId: r.id, number: r.number, steps: stepsOf(t, r.id) };
  });

const closePeriods = (t: Tables, [procedureId, untilAt]: readonly string[]) =>
  by(t, 'inForcePeriod', 'procedureId', procedureId).filter((f) => f.untilAt === null).map((f) => (f.untilAt = new Date(untilAt!)));

export const PROCEDURE_ANSWERS: readonly Answer[] = [
  { marks: ['f.from_at AS "inForceFrom", r.acknowledge_by AS "acknowledgeBy"', 'coalesce((SELECT jsonb_agg(s.body ORDER BY s.position)'], reply: inForce },
  { marks: ['w.id::text AS "personId", r.id::text AS "revisionId"'], reply: missing },
  { marks: ['FROM procedure_revision r JOIN procedure p', 'WHERE r.id = ANY($1::uuid[]) ORDER BY p.position'], reply: frozen },
  { marks: ['coalesce(max(position), 0)::int AS position FROM procedure'], reply: (t) => [{ position: Math.max(0, ...all(t, 'procedure').map(({ position }) => position)) }] },
  { marks: ['UPDATE in_force_period SET until_at = $2'], reply: closePeriods },
];
