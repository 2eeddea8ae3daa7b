// Photos by their place and by the entry that names them, as this phone knows it.
import type { MemberRecord } from '@backsight/contract/sitework';
import { ACT_NAMES, type KnownAct } from '@backsight/domain/sitework/act';
import { placeOf } from '@backsight/domain/sitework/value';
import { useMe } from '../../api/people.ts';
import { useKeptPhotos } from '../../api/phone/photos.ts';
import type { KeptPhoto } from '../../api/phone/store.ts';

/** Photos taken at places of a record whose entries are not recorded yet, by place. */
export function useTaken(recordId: string): Map<string, KeptPhoto[]> {
  const me = useMe();
  const mine = useKeptPhotos().filter((photo) => photo.personId === me.id && photo.recordId === recordId && photo.state === 'taken');
  const places = new Map<string, KeptPhoto[]>();
  for (const photo of mine) places.set(photo.place, [...(places.get(photo.place) ?? []), photo]);
  return places;
}

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
