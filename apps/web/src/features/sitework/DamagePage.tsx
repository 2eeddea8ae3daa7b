// Damage or injury on the visit: recorded before leaving, by either of the pair. It opens a callback the same hour.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Textarea, TextInput } from '@mantine/core';
import { actKey, DAMAGES } from '@backsight/domain/sitework/act';
import { placeOf } from '@backsight/domain/sitework/value';
import { useDraft } from '../../api/phone/drafts.ts';
import { Choices } from './Choices.tsx';
import { EntryPhotos } from './EntryPhotos.tsx';
import { useTaken } from './photoModel.ts';
import { PhotoTaker } from './PhotoTaker.tsx';
import { SitePage, type Site } from './SitePage.tsx';
import classes from './sitework.module.css';

const WHAT = [
  { key: 'damage', label: 'Something was damaged' },
  { key: 'injury', label: 'Somebody was hurt' },
] as const satisfies { key: keyof typeof DAMAGES; label: string }[];

export const DamagePage = (): ReactNode => <SitePage title="Damage or injury">{(site) => <Report site={site} />}</SitePage>;

type Typed = { what: keyof typeof DAMAGES | null; safety: boolean; words: { where: string; note: string; client: string } };
const BLANK: Typed = { what: null, safety: false, words: { where: '', note: '', client: '' } };
const PLACE = placeOf({ stepKey: actKey('damage'), itemId: null });

function Report({ site: { record, acts, add } }: { site: Site }): ReactNode {
  const [{ what, safety, words }, change] = useDraft(record.id, PLACE, BLANK);
  const setWords = (all: Typed['words']) => change({ words: all });
  const [kept, setKept] = useState(false);
  const known = acts.filter(({ act }) => act.do === 'damage');
  const taken = useTaken(record.id).get(PLACE) ?? [];
  const put = async () => {
    if (
      what === null ||
      !(await add(
        { do: 'damage', what, safety },
        words,
        record.me,
        taken.map(({ id }) => id),
      ))
    )
      return;
    setKept(true);
  };
  return (
    <>
      <div aria-live="polite">
        {kept ? (
          <p className={classes.notice}>Kept. It opens a callback as soon as there is signal. Promise nothing; the office calls.</p>
        ) : null}
        {known.length > 0 ? <p className={classes.soft}>On record of this visit: {known.length}.</p> : null}
        {known.map(({ id }) => (
          <EntryPhotos key={id} record={record} entryId={id} />
        ))}
      </div>
      <Choices legend="What happened" name="damage" options={WHAT} value={what} onChange={(one) => change({ what: one })} />
      {what === 'injury' ? (
        <p className={classes.notice}>
          Help first; life in danger: call 911. What you write about a person who was hurt is seen by the owner alone.
        </p>
      ) : null}
      <TextInput
        label="Where"
        size="lg"
        mt="sm"
        value={words.where}
        onChange={(event) => setWords({ ...words, where: event.currentTarget.value })}
      />
      <Textarea
        label="In your words"
        description="What was seen and done, not whose fault."
        size="lg"
        mt="sm"
        autosize
        minRows={3}
        value={words.note}
        onChange={(event) => setWords({ ...words, note: event.currentTarget.value })}
      />
      <PhotoTaker
        recordId={record.id}
        place={PLACE}
        legend="Photos"
        words={what === 'injury' ? 'Photos of somebody who was hurt are seen by the owner alone.' : undefined}
      />
      <TextInput
        label="Who was told"
        size="lg"
        mt="sm"
        value={words.client}
        onChange={(event) => setWords({ ...words, client: event.currentTarget.value })}
      />
      <Checkbox
        size="lg"
        mt="md"
        label="Somebody is still in danger"
        checked={safety}
        onChange={(event) => change({ safety: event.currentTarget.checked })}
      />
      <div className={classes.acts}>
        <Button size="xl" fullWidth disabled={what === null || words.note.trim() === ''} onClick={() => void put()}>
          Record it
        </Button>
      </div>
    </>
  );
}
