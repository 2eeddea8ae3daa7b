// Photos by the entry that names them, as this phone knows it.
import type { MemberRecord } from '@backsight/contract/sitework';
import type { KnownAct } from '@backsight/domain/sitework/act';
import { ACT_NAMES } from '@backsight/domain/sitework/sayAct';
import { placeOf } from '@backsight/domain/sitework/value';
import { useKeptPhotos } from '../../api/phone/photos.ts';

/** Ids of the photos of an entry, which its correction keeps; none without an entry. */
export function usePhotosOf(record: MemberRecord, entryId: string | undefined): string[] {
  const kept = useKeptPhotos();
  if (entryId === undefined) return [];
  const known = (record.photos ?? []).filter(({ entries }) => entries.includes(entryId)).map(({ id }) => id);
  const here = kept.filter((photo) => photo.entryId === entryId).map(({ id }) => id);
  return [...new Set([...known, ...here])];
}

type Place = { stepKey: string; itemId: string | null };
type Named = {
  acts: readonly Pick<KnownAct, 'id' | 'act'>[];
  entries: readonly (Place & { id: string })[];
  steps: readonly (Place & { title: string })[];
};

/** What a photo is of: the step or the act whose entries name it. */
export function photoTitle({ acts, entries, steps }: Named, naming: readonly string[]): string {
  const act = acts.find(({ id }) => naming.includes(id));
  if (act) return ACT_NAMES[act.act.do];
  const entry = entries.find(({ id }) => naming.includes(id));
  return steps.find((step) => entry && placeOf(step) === placeOf(entry))?.title ?? 'Photo';
}
