// Private calendar addresses of people, and what stands in the calendar behind one.
import type { Reader, Tx } from '../database.ts';

/** The open address of a person; its secret is never in reach, only when it was made. */
export const findFeed = async (reader: Reader, personId: string): Promise<{ id: string; createdAt: Date } | null> =>
  (
    await reader.rows<{ id: string; createdAt: Date }>(
      `SELECT id::text AS id, created_at AS "createdAt" FROM calendar_feed WHERE person_id = $1::uuid AND revoked_at IS NULL`,
      [personId],
    )
  )[0] ?? null;

/** Closes the open address of a person; answers whether there was one. */
export const revokeFeed = async (tx: Tx, personId: string, at: Date): Promise<boolean> =>
  (await tx.db.calendarFeed.updateMany({ where: { personId, revokedAt: null }, data: { revokedAt: at } })).count > 0;

/** Opens an address. Constraint: calendar_feed_one_open. */
export async function saveFeed(tx: Tx, feed: { id: string; personId: string; tokenHash: string; createdAt: Date }): Promise<void> {
  await tx.db.calendarFeed.create({ data: feed });
}

/** Whose open address a digest belongs to, while that person works here. */
export const findFeedOwner = async (reader: Reader, tokenHash: string, today: string): Promise<{ id: string; name: string } | null> =>
  (
    await reader.rows<{ id: string; name: string }>(
      `SELECT p.id::text AS id, p.name FROM calendar_feed f JOIN person p ON p.id = f.person_id WHERE f.token_hash = $1 AND f.revoked_at IS NULL AND (p.ended_on IS NULL OR p.ended_on > $2::date)`,
      [tokenHash, today],
    )
  )[0] ?? null;

export type FeedVisit = {
  id: string;
  kindName: string;
  place: string;
  others: string[];
  startsAt: Date;
  endsAt: Date;
  address: string;
  version: number;
  recordedAt: Date;
};

/** Booked and past visits of a person between two instants, in order; holds are no appointments. */
export const feedVisits = (reader: Reader, personId: string, from: Date, until: Date): Promise<FeedVisit[]> =>
  reader.rows<FeedVisit>(
    `SELECT v.id::text AS id, k.name AS "kindName", a.place, v.starts_at AS "startsAt", v.ends_at AS "endsAt", h.address || ', ' || h.town || ' ' || h.zip AS address, v.version, v.recorded_at AS "recordedAt",
       ARRAY(SELECT p.name FROM assignment b JOIN person p ON p.id = b.person_id WHERE b.visit_id = v.id AND b.person_id <> $1::uuid ORDER BY b.place) AS others
     FROM visit v JOIN (SELECT visit_id, person_id, place FROM assignment UNION ALL SELECT visit_id, person_id, 'observer' FROM observer) a ON a.visit_id = v.id AND a.person_id = $1::uuid
     JOIN job j ON j.id = v.job_id JOIN property h ON h.id = j.property_id JOIN visit_kind k ON k.key = v.kind
     WHERE v.live AND v.state <> 'held' AND v.starts_at < $3::timestamptz AND v.ends_at > $2::timestamptz ORDER BY v.starts_at, v.id`,
    [personId, from.toISOString(), until.toISOString()],
  );

export type FeedAbsence = { id: string; startsAt: Date; endsAt: Date; state: 'asked' | 'approved'; recordedAt: Date };

/** Absences asked for and approved between two instants; never their reasons. */
export const feedAbsences = (reader: Reader, personId: string, from: Date, until: Date): Promise<FeedAbsence[]> =>
  reader.rows<FeedAbsence>(
    `SELECT id::text AS id, starts_at AS "startsAt", ends_at AS "endsAt", state, coalesce(decided_at, recorded_at) AS "recordedAt" FROM absence
     WHERE person_id = $1::uuid AND withdrawn_at IS NULL AND state <> 'refused' AND starts_at < $3::timestamptz AND ends_at > $2::timestamptz ORDER BY starts_at, id`,
    [personId, from.toISOString(), until.toISOString()],
  );
