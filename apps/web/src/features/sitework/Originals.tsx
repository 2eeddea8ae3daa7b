// The photos of a sealed record by their fingerprints; an owner opens an original after saying why.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { SealedRecord } from '@backsight/contract/sitework';
import { useMe } from '../../api/people.ts';
import { openOriginal } from '../../api/photos.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { instantText } from '../../ui/time.ts';
import { photoTitle } from './photoModel.ts';
import classes from './sitework.module.css';

type Photo = SealedRecord['photos'][number];

export function Originals({ record }: { record: SealedRecord }): ReactNode {
  const me = useMe();
  const come = record.photos.filter(({ state }) => state === 'here');
  if (record.photos.length === 0 && record.spoken.length === 0) return null;
  const lost = record.photos.length - come.length;
  return (
    <section>
      <h2 className={classes.day}>Photos</h2>
      <p className={classes.soft}>
        {come.length} {come.length === 1 ? 'photo' : 'photos'} under the seal{lost > 0 ? `, ${lost} that will not come` : ''}. Shown here
        are copies without a position; the originals stay under seal.
      </p>
      <details className={classes.more}>
        <summary>Fingerprints of the originals</summary>
        <ul className={classes.plain}>
          {come.map((photo) => (
            <li key={photo.id}>
              {photoTitle(record, photo.entries)}: <span className={classes.code}>{photo.originalSha256}</span>
            </li>
          ))}
        </ul>
      </details>
      {record.spoken.length > 0 ? (
        <details className={classes.more}>
          <summary>Fingerprints of the spoken notes ({record.spoken.length})</summary>
          <ul className={classes.plain}>
            {record.spoken.map(({ id, entries, sha256, lost }) => (
              <li key={id}>
                {photoTitle(record, entries)}: {sha256 ? <span className={classes.code}>{sha256}</span> : `will not come: ${lost}`}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
      {record.openings.map(({ id, photoId, by, reason, at }) => (
        <p key={id} className={classes.soft}>
          Original opened by {by}, {instantText(at, me.zone)} (
          {photoTitle(record, record.photos.find((photo) => photo.id === photoId)?.entries ?? [])}): {reason ?? 'erased'}
        </p>
      ))}
      {me.roles.includes('owner') && come.length > 0 ? <Open record={record} photos={come} /> : null}
    </section>
  );
}

function Open({ record, photos }: { record: SealedRecord; photos: readonly Photo[] }): ReactNode {
  const queries = useQueryClient();
  const [photoId, setPhotoId] = useState(photos[0]!.id);
  const {
    values: { reason },
    setValues,
    draft,
  } = useDraft({ reason: '' }, `original ${record.id}`);
  const open = useMutation({
    mutationFn: openOriginal,
    onSuccess: async () => {
      setValues({ reason: '' });
      await queries.invalidateQueries({ queryKey: ['record', record.id, 'sealed'] });
    },
  });
  return (
    <details className={classes.more}>
      <summary>Open an original</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          whileSending(draft, () => open.mutate({ recordId: record.id, photoId, reason }));
        }}
      >
        <p className={classes.soft}>The original may hold the place where it was taken. That you opened it, and why, is kept.</p>
        <Kept draft={draft} />
        <ProblemNote of={open.error} />
        <NativeSelect
          label="Photo"
          data={photos.map((photo, at) => ({ value: photo.id, label: `${at + 1}. ${photoTitle(record, photo.entries)}` }))}
          value={photoId}
          onChange={(event) => {
            open.reset();
            setPhotoId(event.currentTarget.value);
          }}
        />
        <TextInput
          label="Why"
          required
          mt="sm"
          maxLength={1000}
          value={reason}
          onChange={(event) => setValues({ reason: event.currentTarget.value })}
        />
        <Button type="submit" size="lg" mt="sm" loading={open.isPending} disabled={reason.trim() === ''}>
          Open it
        </Button>
        {open.data ? (
          <p>
            <a href={open.data}>Fetch the original</a> (for 15 minutes)
          </p>
        ) : null}
      </form>
    </details>
  );
}
