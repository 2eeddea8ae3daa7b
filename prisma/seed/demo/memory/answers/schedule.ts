// Answers about visits, their people, and the days that they take.
import { touched, type Answer } from '../answer.ts';
import { all, by, insert, one, type Row, type Tables } from '../tables.ts';
import { sortBy } from '../when.ts';
import { dayIn } from '@backsight/store/database';

export const crewOf = (t: Tables, visitId: string): Row[] => sortBy(by(t, 'assignment', 'visitId', visitId), ({ place }) => place);

const visitOf = (t: Tables) => (v: Row) => {
  const [first, second] = crewOf(t, v.id);
  return {
    ...v,
    first: first?.personId ?? null,
    second: second?.personId ?? null,
    kit: by(t, 'visitKit', 'visitId', v.id)
      .map(({ kind }) => kind)
      .sort(),
  };
};

/** Each day once. */
function lockDays(t: Tables, table: string, column: string, [keys, days]: readonly string[][]): unknown[] {
  keys!.forEach((key, at) => {
    const there = by(t, table, column, key).some((row) => row.day.getTime() === dayIn(days![at]!).getTime());
    if (!there) insert(t, table, { [column]: key, day: dayIn(days![at]!) });
  });
  return touched(keys!.length);
}

/** A kind that is part of another is locked with it. */
function withWhole(t: Tables, [kinds, days]: readonly string[][]): string[][] {
  const both = kinds!.flatMap((kind, at) =>
    [kind, one(t, 'kitKind', kind, 'key')?.ofKind as string | null | undefined].flatMap((each) => (each ? [[each, days![at]!]] : [])),
  );
  return [both.map(([kind]) => kind!), both.map(([, day]) => day!)];
}

function lapsed(t: Tables, [now, from, until, except]: readonly any[]) {
  const over = all(t, 'visit').filter(
    (v) =>
      v.state === 'held' &&
      v.holdEndsAt <= new Date(now) &&
      v.id !== except &&
      (from === null || (v.endsAt > new Date(from) && v.startsAt < new Date(until))),
  );
  return sortBy(
    over,
    ({ jobId }) => jobId,
    ({ id }) => id,
  ).map(({ id, jobId }) => ({ id, jobId }));
}

const MINUTE = 60_000;

function earliest(t: Tables, jobId: string, hours: number): unknown[] {
  const ends = by(t, 'visit', 'jobId', jobId).filter(({ live, kind }) => live && kind === 'inspection');
  if (hours === 0) return [];
  return [{ at: ends.length === 0 ? null : new Date(Math.max(...ends.map(({ endsAt }) => endsAt.getTime())) + hours * 60 * MINUTE) }];
}

/** In whole minutes, no later than planned; its people's times follow. */
function ended(t: Tables, v: Row, at: Date): Row {
  const minute = Math.max(Math.floor(at.getTime() / MINUTE) * MINUTE, v.startsAt.getTime()) + MINUTE;
  const endsAt = new Date(Math.min(v.endsAt.getTime(), minute));
  for (const one of crewOf(t, v.id)) one.endsAt = endsAt;
  return Object.assign(v, { state: 'ended', version: v.version + 1, expectedAt: null, endsAt });
}

const VISIT = 'v.report_minutes AS "reportMinutes", v.version';

export const SCHEDULE_ANSWERS: readonly Answer[] = [
  { marks: [VISIT, 'WHERE v.id = $1::uuid'], reply: (t, [id]) => by(t, 'visit', 'id', id).map(visitOf(t)) },
  {
    marks: [VISIT, 'WHERE v.job_id = $1::uuid'],
    reply: (t, [jobId]) =>
      sortBy(
        by(t, 'visit', 'jobId', jobId),
        (v) => v.startsAt.getTime(),
        ({ id }) => id,
      ).map(visitOf(t)),
  },
  { marks: ['FROM provider WHERE id = ANY($1::uuid[]) ORDER BY id FOR UPDATE'], reply: () => [] },
  {
    marks: [`v.state IN ('on_site', 'done', 'ended') JOIN assignment a`],
    reply: (t, [propertyId, clients]) => {
      const others = by(t, 'job', 'propertyId', propertyId).filter(
        (j) => !by(t, 'jobParty', 'jobId', j.id).some(({ role, partyId }) => role === 'client' && clients.includes(partyId)),
      );
      const there = others.flatMap((j) =>
        by(t, 'visit', 'jobId', j.id).filter(({ state }) => ['on_site', 'done', 'ended'].includes(state)),
      );
      return [...new Set(there.flatMap((v) => by(t, 'assignment', 'visitId', v.id).map(({ personId }) => personId)))]
        .sort()
        .map((id) => ({ id }));
    },
  },
  {
    marks: ['SELECT id::text AS id, name, email FROM person WHERE id = ANY'],
    reply: (t, [ids]) =>
      sortBy(
        [...new Set<string>(ids)].flatMap((id) => by(t, 'person', 'id', id)),
        ({ name }) => name,
        ({ id }) => id,
      ).map(({ id, name, email }) => ({ id, name, email })),
  },
  { marks: ['INSERT INTO person_day'], reply: (t, params) => lockDays(t, 'personDay', 'personId', params) },
  { marks: ['INSERT INTO kit_day'], reply: (t, params) => lockDays(t, 'kitDay', 'kind', withWhole(t, params)) },
  { marks: [`v.state = 'held' AND v.hold_ends_at <= $1::timestamptz`, 'FOR UPDATE OF j, v'], reply: lapsed },
  {
    marks: [`SELECT count(*)::int AS n FROM visit WHERE state = 'held'`],
    reply: (t, [now]) => [{ n: lapsed(t, [now, null, null, null]).length }],
  },
  {
    marks: ['SELECT id::text FROM visit WHERE id = $1::uuid FOR UPDATE'],
    reply: (t, [id]) => by(t, 'visit', 'id', id).map((v) => ({ id: v.id })),
  },
  {
    marks: ['UPDATE visit SET state = $2, version = version + 1'],
    reply: (t, [id, state]) => [one(t, 'visit', id)!].map((v) => Object.assign(v, { state, version: v.version + 1 })),
  },
  {
    marks: ['FROM test_item WHERE job_id = $1::uuid AND awaited'],
    reply: (t, [jobId]) => by(t, 'testItem', 'jobId', jobId).filter(({ awaited }) => awaited),
  },
  {
    marks: ['AS words FROM visit_kind WHERE key'],
    reply: (t, [kind]) => [{ words: one(t, 'visitKind', kind, 'key')!.name.toLowerCase() }],
  },
  {
    marks: ['AS at FROM visit_kind k WHERE k.key = $2 AND k.after_hours > 0'],
    reply: (t, [jobId, kind]) => earliest(t, jobId, one(t, 'visitKind', kind, 'key')!.afterHours ?? 0),
  },
  {
    marks: [`UPDATE visit SET state = 'ended'`],
    reply: (t, [id, endedAt]) => [one(t, 'visit', id)!].map((v) => ended(t, v, new Date(endedAt))),
  },
];
