// Photos and spoken notes of site records: what is kept of each beside its files, and who opened an original.
import type { NearProperty, Place } from '@backsight/domain/sitework/nearby';
import type { Reader, Tx } from '../database.ts';

export type PhotoRow = {
  id: string;
  recordId: string;
  entryId: string;
  originalSha256: string;
  /** Of a photo alone, as is where it was taken. */
  copySha256: string | null;
  nearProperty: NearProperty | null;
  /** Metres within which it counted as near. */
  nearLimitM: number | null;
  /** Of a spoken note alone: how long it is. */
  seconds: number | null;
  takenBy: string;
  /** By the phone's clock. */
  takenAt: Date;
  /** Milliseconds to add to the phone's clock; null where it is not known. */
  clockOffsetMs: number | null;
  recordedAt: Date;
};

const PHOTO = `SELECT id::text AS id, record_id::text AS "recordId", entry_id::text AS "entryId", original_sha256 AS "originalSha256", copy_sha256 AS "copySha256", near_property AS "nearProperty",
  near_limit_m AS "nearLimitM", seconds, taken_by::text AS "takenBy", taken_at AS "takenAt", clock_offset_ms::float8 AS "clockOffsetMs", recorded_at AS "recordedAt" FROM site_photo`;

export const photosOf = (reader: Reader, recordId: string): Promise<PhotoRow[]> =>
  reader.rows<PhotoRow>(`${PHOTO} WHERE record_id = $1::uuid ORDER BY taken_at, id`, [recordId]);

export const findPhoto = async (reader: Reader, id: string): Promise<PhotoRow | null> =>
  (await reader.rows<PhotoRow>(`${PHOTO} WHERE id = $1::uuid`, [id]))[0] ?? null;

/** Adds a photo or spoken note whose files are noted. Constraints: site_photo_pkey, record_sealed, photo_not_announced, photo_of_another, spoken_not_a_sound. */
export async function addPhoto(tx: Tx, photo: PhotoRow & { deviceId: string | null }): Promise<void> {
  const clockOffsetMs = photo.clockOffsetMs === null ? null : BigInt(photo.clockOffsetMs);
  await tx.db.sitePhoto.create({ data: { ...photo, clockOffsetMs } });
}

/** Where the property of a record stands, where that is known to the house and not only to the town. */
export const placeOfRecord = async (reader: Reader, recordId: string): Promise<Place | null> =>
  (
    await reader.rows<Place>(
      `SELECT p.lat, p.lon FROM site_record r JOIN visit v ON v.id = r.visit_id JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id
       WHERE r.id = $1::uuid AND p.place_by = 'exact' AND p.lat IS NOT NULL AND p.lon IS NOT NULL`,
      [recordId],
    )
  )[0] ?? null;

/** How many photos of each visit of a job have come, and how many are on their way. */
export const photoCounts = (reader: Reader, jobId: string): Promise<{ visitId: string; here: number; onTheirWay: number }[]> =>
  reader.rows(
    `SELECT v.id::text AS "visitId", (count(*) FILTER (WHERE n.here))::int AS here, (count(*) FILTER (WHERE NOT n.here AND NOT n.lost))::int AS "onTheirWay"
     FROM visit v JOIN site_record r ON r.visit_id = v.id CROSS JOIN LATERAL (
       SELECT (SELECT h.id FROM site_photo h WHERE h.id = p.id::uuid) IS NOT NULL AS here,
         EXISTS (SELECT FROM step_entry l WHERE l.record_id = r.id AND l.value -> 'act' ->> 'do' = 'photo_lost' AND l.value -> 'act' ->> 'photo' = p.id) AS lost
       FROM (SELECT DISTINCT x.id FROM step_entry e CROSS JOIN LATERAL jsonb_array_elements_text(coalesce(e.value -> 'photos', '[]'::jsonb)) x(id) WHERE e.record_id = r.id) p) n
     WHERE v.job_id = $1::uuid GROUP BY v.id`,
    [jobId],
  );

/** The kind of a stored file. */
export const mediaTypeOf = async (reader: Reader, sha256: string): Promise<string | null> =>
  (await reader.rows<{ type: string }>('SELECT media_type AS type FROM stored_file WHERE sha256 = $1', [sha256]))[0]?.type ?? null;

export type NewOpening = { id: string; photoId: string; textId: string; openedBy: string; recordedAt: Date };

/** An original is opened by an owner: only ever added. */
export async function addOpening(tx: Tx, opening: NewOpening): Promise<void> {
  await tx.db.photoOpening.create({ data: opening });
}

export type OpeningRow = { id: string; photoId: string; openedBy: string; by: string; text: string | null; recordedAt: Date };

const OPENING = `SELECT o.id::text AS id, o.photo_id::text AS "photoId", o.opened_by::text AS "openedBy", p.name AS by, t.body AS text, o.recorded_at AS "recordedAt"
  FROM site_photo_opening o JOIN site_photo h ON h.id = o.photo_id JOIN person p ON p.id = o.opened_by JOIN kept_text t ON t.id = o.text_id`;

export const openingsOf = (reader: Reader, recordId: string): Promise<OpeningRow[]> =>
  reader.rows<OpeningRow>(`${OPENING} WHERE h.record_id = $1::uuid ORDER BY o.recorded_at, o.id`, [recordId]);

export const findOpening = async (reader: Reader, id: string): Promise<OpeningRow | null> =>
  (await reader.rows<OpeningRow>(`${OPENING} WHERE o.id = $1::uuid`, [id]))[0] ?? null;
