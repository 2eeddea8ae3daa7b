// Which photos and spoken notes the entries of a record name, and which of them the seal waits for.
import type { KnownAct } from '@backsight/domain/sitework/act';
import { namedPhotos, photosToCome, type NamedPhoto } from '@backsight/domain/sitework/photos';

type Row = { id: string; writtenBy: string; order: string; value: { photos?: readonly string[]; spoken?: readonly string[] } };
type Rows = { entries: readonly Row[]; actRows: readonly Row[] };

/** Every photo and spoken note that an entry or act of the record names, by the one that named it first. */
export const namedIn = ({ entries, actRows }: Rows): NamedPhoto[] =>
  namedPhotos(
    [...entries, ...actRows]
      .sort((a, b) => (a.order < b.order ? -1 : 1))
      .map(({ id, writtenBy, value }) => ({ id, writtenBy, photos: value.photos ?? [], spoken: value.spoken ?? [] })),
  );

/** Those that the seal waits for. */
export const toCome = (record: Rows & { photos: readonly { id: string }[]; acts: readonly KnownAct[] }): NamedPhoto[] =>
  photosToCome(namedIn(record), new Set(record.photos.map(({ id }) => id)), record.acts);
