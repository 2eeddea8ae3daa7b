// Visits and their people: locks, holds that end, placing, moving.
import type { Prisma } from '../generated/client.ts';
import { execute, type Reader, type Tx } from '../database.ts';
import { saveParts } from './providers.ts';

export type VisitState = 'held' | 'booked' | 'on_site' | 'done' | 'ended' | 'cancelled' | 'lapsed' | 'before';
export type VisitRow = {
  id: string;
  jobId: string;
  kind: string;
  crewSize: 1 | 2;
  state: VisitState;
  startsAt: Date;
  endsAt: Date;
  holdEndsAt: Date | null;
  reportMinutes: number;
  walkThroughMinutes: number;
  version: number;
  first: string;
  second: string | null;
  kit: string[];
};

const VISIT = `SELECT v.id::text AS id, v.job_id::text AS "jobId", v.kind, v.crew_size AS "crewSize", v.state, v.starts_at AS "startsAt", v.ends_at AS "endsAt", v.hold_ends_at AS "holdEndsAt",
  v.report_minutes AS "reportMinutes", v.version, v.walk_through_minutes AS "walkThroughMinutes",
  (SELECT a.person_id::text FROM assignment a WHERE a.visit_id = v.id AND a.place = 'first') AS first, (SELECT a.person_id::text FROM assignment a WHERE a.visit_id = v.id AND a.place = 'second') AS second,
  ARRAY(SELECT k.kind FROM visit_kit k WHERE k.visit_id = v.id ORDER BY k.kind) AS kit FROM visit v`;

export const findVisit = async (reader: Reader, id: string): Promise<VisitRow | null> =>
  (await reader.rows<VisitRow>(`${VISIT} WHERE v.id = $1::uuid`, [id]))[0] ?? null;

export const findVisitsOfJob = (reader: Reader, jobId: string): Promise<VisitRow[]> =>
  reader.rows<VisitRow>(`${VISIT} WHERE v.job_id = $1::uuid ORDER BY v.starts_at, v.id`, [jobId]);

/** Visits to a property that are held or booked and still to come, in order. */
export const findComingVisits = (reader: Reader, propertyId: string, now: Date): Promise<VisitRow[]> =>
  reader.rows<VisitRow>(
    `${VISIT} JOIN job j ON j.id = v.job_id WHERE j.property_id = $1::uuid AND v.state IN ('held', 'booked') AND (v.state = 'booked' OR v.hold_ends_at > $2::timestamptz) AND v.starts_at > $2::timestamptz ORDER BY v.starts_at, v.id`,
    [propertyId, now.toISOString()],
  );

const FIRST_PEOPLE = `SELECT DISTINCT a.person_id::text AS id FROM job j JOIN visit v ON v.job_id = j.parent_id AND v.state IN ('on_site', 'done') JOIN assignment a ON a.visit_id = v.id WHERE j.kind = 'callback_visit' AND`;
const ids = (rows: { id: string }[]): string[] => rows.map(({ id }) => id);

/** Who did the inspection that a callback visit looks at again; nobody for other jobs. */
export const firstPeopleOfJob = async (reader: Reader, jobId: string): Promise<string[]> =>
  ids(await reader.rows(`${FIRST_PEOPLE} j.id = $1::uuid ORDER BY 1`, [jobId]));
export const firstPeopleOfVisit = async (reader: Reader, visitId: string): Promise<string[]> =>
  ids(await reader.rows(`${FIRST_PEOPLE} j.id = (SELECT w.job_id FROM visit w WHERE w.id = $1::uuid) ORDER BY 1`, [visitId]));

/** Days in the span on which somebody outside the firm stands on a visit that takes place. */
export const findDaysWithParty = async (reader: Reader, q: { partyId: string; from: Date; until: Date; zone: string }): Promise<string[]> =>
  (
    await reader.rows<{ day: string }>(
      `SELECT DISTINCT (v.starts_at AT TIME ZONE $4)::date::text AS day FROM visit v JOIN job_party jp ON jp.job_id = v.job_id
       WHERE jp.party_id = $1::uuid AND v.live AND v.starts_at >= $2::timestamptz AND v.starts_at < $3::timestamptz ORDER BY 1`,
      [q.partyId, q.from.toISOString(), q.until.toISOString(), q.zone],
    )
  ).map(({ day }) => day);

export type Days = { people: readonly { id: string; day: string }[]; kit: readonly { kind: string; day: string }[] };

/**
 * Locks the days of people and kit, always in the same order, so that whoever is about to change them comes one after the other.
 * A kind that is part of another (a long ladder) takes a piece of that too, so the day of the whole kind is locked with it.
 */
export async function lockDays(tx: Tx, { people, kit }: Days): Promise<void> {
  await execute(
    tx,
    `INSERT INTO person_day (person_id, day) SELECT DISTINCT id, day FROM unnest($1::uuid[], $2::date[]) AS t(id, day) ORDER BY id, day ON CONFLICT (person_id, day) DO UPDATE SET day = EXCLUDED.day`,
    people.map(({ id }) => id),
    people.map(({ day }) => day),
  );
  await execute(
    tx,
    `INSERT INTO kit_day (kind, day) SELECT DISTINCT v.kind, t.day FROM unnest($1::text[], $2::date[]) AS t(kind, day) LEFT JOIN kit_kind k ON k.key = t.kind
     CROSS JOIN LATERAL (VALUES (t.kind), (k.of_kind)) AS v(kind) WHERE v.kind IS NOT NULL ORDER BY v.kind, t.day ON CONFLICT (kind, day) DO UPDATE SET day = EXCLUDED.day`,
    kit.map(({ kind }) => kind),
    kit.map(({ day }) => day),
  );
}

export type Lapsed = { id: string; jobId: string };

/** Ends holds whose time is over: those that touch the span, or all. Answers which, their jobs locked. `except` is left alone. */
export async function endLapsedHolds(tx: Tx, now: Date, span?: { from: Date; until: Date; except?: string }): Promise<Lapsed[]> {
  const lapsed = await tx.rows<Lapsed>(
    `SELECT v.id::text AS id, v.job_id::text AS "jobId" FROM visit v JOIN job j ON j.id = v.job_id
     WHERE v.state = 'held' AND v.hold_ends_at <= $1::timestamptz AND ($2::timestamptz IS NULL OR (v.ends_at > $2::timestamptz AND v.starts_at < $3::timestamptz)) AND ($4::uuid IS NULL OR v.id <> $4::uuid)
     ORDER BY j.id, v.id LIMIT 200 FOR UPDATE OF j, v`,
    [now.toISOString(), span?.from.toISOString() ?? null, span?.until.toISOString() ?? null, span?.except ?? null],
  );
  if (lapsed.length > 0)
    await tx.db.visit.updateMany({
      where: { id: { in: lapsed.map(({ id }) => id) } },
      data: { state: 'lapsed', live: false, version: { increment: 1 } },
    });
  return lapsed;
}

export const countLapsedHolds = async (reader: Reader, now: Date): Promise<number> =>
  (
    await reader.rows<{ n: number }>(`SELECT count(*)::int AS n FROM visit WHERE state = 'held' AND hold_ends_at <= $1::timestamptz`, [
      now.toISOString(),
    ])
  )[0]!.n;

/** An outside provider's part of a visit. */
export type OutsidePart = { service: string; providerId: string; offsetMinutes: number; minutes: number };

export type Placed = Omit<VisitRow, 'version'> & {
  because: unknown;
  outside: readonly OutsidePart[];
  promised?: { from: Date; until: Date } | null;
};

/** Writes a visit with its people, kit and outside providers. Constraints: visit_promise, person_taken, person_elsewhere, provider_taken, visit_crew_complete, visit_crew_size_of_kind. */
export async function insertVisit(tx: Tx, v: Placed & { recordedAt: Date }): Promise<void> {
  const { first, second, kit, because, outside, promised = null, ...row } = v;
  const live = ['held', 'booked', 'on_site', 'done'].includes(row.state);
  await tx.db.visit.create({
    data: {
      ...row,
      live,
      because: because as Prisma.InputJsonValue,
      ...(promised && { promisedFrom: promised.from, promisedUntil: promised.until }),
    },
  });
  await saveCrew(tx, { ...row, live, first, second });
  await saveParts(tx, { ...row, live }, outside);
  if (kit.length > 0) await tx.db.visitKit.createMany({ data: kit.map((kind) => ({ visitId: row.id, kind })) });
}

const saveCrew = (tx: Tx, v: { id: string; startsAt: Date; endsAt: Date; live: boolean; first: string; second: string | null }) =>
  tx.db.assignment.createMany({
    data: [{ place: 'first', personId: v.first }, ...(v.second === null ? [] : [{ place: 'second', personId: v.second }])].map((one) => ({
      ...one,
      visitId: v.id,
      startsAt: v.startsAt,
      endsAt: v.endsAt,
      live: v.live,
    })),
  });

export type VisitEdit = {
  state: VisitState;
  startsAt: Date;
  endsAt: Date;
  holdEndsAt: Date | null;
  first: string;
  second: string | null;
  because?: unknown;
  /** Outside providers' parts when they are chosen anew; else they follow the visit. */
  outside?: readonly OutsidePart[];
};

/** Gives a visit another state, time or pair if the version is still the one that was seen; answers whether it was. */
export async function updateVisit(tx: Tx, id: string, version: number, edit: VisitEdit): Promise<boolean> {
  const { first, second, because, outside, ...row } = edit;
  const live = ['held', 'booked', 'on_site', 'done'].includes(row.state);
  await tx.db.assignment.deleteMany({ where: { visitId: id } });
  if (outside) await tx.db.providerVisit.deleteMany({ where: { visitId: id } });
  const { count } = await tx.db.visit.updateMany({
    where: { id, version },
    data: { ...row, live, version: { increment: 1 }, ...(because === undefined ? {} : { because: because as Prisma.InputJsonValue }) },
  });
  if (count === 0) return false;
  await saveCrew(tx, { id, startsAt: row.startsAt, endsAt: row.endsAt, live, first, second });
  if (outside) await saveParts(tx, { id, startsAt: row.startsAt, endsAt: row.endsAt, live }, outside);
  return true;
}

/** Books a visit that is held, or was, at its time and with its people, if the version is still the one that was seen; answers whether it was. */
export const keepHeld = async (tx: Tx, id: string, version: number): Promise<boolean> =>
  (
    await tx.db.visit.updateMany({
      where: { id, version },
      data: { state: 'booked', holdEndsAt: null, live: true, version: { increment: 1 } },
    })
  ).count > 0;

/** Ends the visits of a job that have not begun, and frees their people. */
export async function endVisits(tx: Tx, jobId: string, state: 'cancelled'): Promise<number> {
  return (
    await tx.db.visit.updateMany({
      where: { jobId, state: { in: ['held', 'booked'] } },
      data: { state, live: false, version: { increment: 1 } },
    })
  ).count;
}
