// Photos that came with a callback: rows here, files outside the database.
import type { Reader, Tx } from '../database.ts';

export type CallbackPhotoRow = {
  id: string;
  callbackId: string;
  number: number;
  originalSha256: string;
  copySha256: string;
  name: string;
  /** Name of whoever of the firm added it; null: the client. */
  by: string | null;
  recordedAt: Date;
};

const PHOTO = `SELECT f.id::text AS id, f.callback_id::text AS "callbackId", c.number, f.original_sha256 AS "originalSha256", f.copy_sha256 AS "copySha256", f.name, p.name AS by, f.recorded_at AS "recordedAt"
  FROM callback_photo f JOIN callback c ON c.id = f.callback_id LEFT JOIN person p ON p.id = f.added_by`;

/** Its own photos, and those of what is the same as it. */
export const photosOfCallback = (reader: Reader, callbackId: string): Promise<CallbackPhotoRow[]> =>
  reader.rows<CallbackPhotoRow>(`${PHOTO} WHERE f.callback_id = $1::uuid OR c.duplicate_of = $1::uuid ORDER BY f.recorded_at, f.id`, [
    callbackId,
  ]);

export const findCallbackPhoto = async (reader: Reader, id: string): Promise<CallbackPhotoRow | null> =>
  (await reader.rows<CallbackPhotoRow>(`${PHOTO} WHERE f.id = $1::uuid`, [id]))[0] ?? null;

export const countPhotos = async (reader: Reader, callbackId: string): Promise<number> =>
  (await reader.rows<{ n: number }>(`SELECT count(*)::int AS n FROM callback_photo WHERE callback_id = $1::uuid`, [callbackId]))[0]?.n ?? 0;

export type NewCallbackPhoto = Pick<CallbackPhotoRow, 'id' | 'callbackId' | 'originalSha256' | 'copySha256' | 'name' | 'recordedAt'> & {
  addedBy: string | null;
};

/** Adds a photo whose files are noted. Constraints: callback_photo_pkey, callback_photo_copy_is_another. */
export async function saveCallbackPhoto(tx: Tx, photo: NewCallbackPhoto): Promise<void> {
  await tx.db.callbackPhoto.create({ data: photo });
}
