// Photos by the entry that names them, as this phone knows it.
import type { MemberRecord } from '@backsight/contract/sitework';
import { useKeptPhotos } from '../../api/phone/photos.ts';

/** Ids of the photos of an entry, which its correction keeps; none without an entry. */
export function usePhotosOf(record: MemberRecord, entryId: string | undefined): string[] {
  const kept = useKeptPhotos();
  if (entryId === undefined) return [];
  const known = (record.photos ?? []).filter(({ entries }) => entries.includes(entryId)).map(({ id }) => id);
  const here = kept.filter((photo) => photo.entryId === entryId).map(({ id }) => id);
  return [...new Set([...known, ...here])];
}
