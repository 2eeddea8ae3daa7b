// Photos and spoken notes by their place and by the entry that names them, as this phone knows it.
import type { MemberRecord } from '@backsight/contract/sitework';
import { ACT_NAMES, type KnownAct } from '@backsight/domain/sitework/act';
import { placeOf } from '@backsight/domain/sitework/value';
import { useMe } from '../../api/people.ts';
import { useKept } from '../../api/phone/photos.ts';
import { useVoice } from './voice.ts';
import type { KeptFile, KeptPhoto, KeptSpoken } from '../../api/phone/store.ts';

const byPlace = <F extends KeptFile>(files: readonly F[], recordId: string, personId: string): Map<string, F[]> => {
  const places = new Map<string, F[]>();
  for (const file of files)
    if (file.personId === personId && file.recordId === recordId && file.state === 'taken')
      places.set(file.place, [...(places.get(file.place) ?? []), file]);
  return places;
};

/** Photos taken at places of a record whose entries are not recorded yet, by place. */
export const useTaken = (recordId: string): Map<string, KeptPhoto[]> => byPlace(useKept().photos, recordId, useMe().id);

/** Spoken notes likewise, without the one that is being spoken. */
export function useSpoken(recordId: string): Map<string, KeptSpoken[]> {
  const now = useVoice()?.id;
  return byPlace(
    useKept().spoken.filter(({ id }) => id !== now),
    recordId,
    useMe().id,
  );
}

type Naming = readonly { id: string; entries: readonly string[] }[];

/** Ids of the photos and spoken notes of an entry, which its correction keeps; none without an entry. */
export function useFilesOf(record: MemberRecord, entryId: string | undefined): { photos: string[]; spoken: string[] } {
  const kept = useKept();
  const of = (known: Naming = [], here: readonly KeptFile[]): string[] =>
    entryId === undefined
      ? []
      : [
          ...new Set(
            [...known.filter(({ entries }) => entries.includes(entryId)), ...here.filter((file) => file.entryId === entryId)].map(
              ({ id }) => id,
            ),
          ),
        ];
  return { photos: of(record.photos, kept.photos), spoken: of(record.spoken, kept.spoken) };
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
