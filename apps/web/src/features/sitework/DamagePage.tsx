// Damage or injury on the visit: recorded before leaving, by either of the pair. It opens a callback the same hour.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Textarea, TextInput } from '@mantine/core';
import { actKey, DAMAGES } from '@backsight/domain/sitework/act';
import { Choices } from './Choices.tsx';
import { EntryPhotos } from './EntryPhotos.tsx';
import { PhotoTaker, useTaken } from './PhotoTaker.tsx';
import { SitePage, type Site } from './SitePage.tsx';
import classes from './sitework.module.css';

const WHAT = [
  { key: 'damage', label: 'Something was damaged' },
  { key: 'injury', label: 'Somebody was hurt' },
] as const satisfies { key: keyof typeof DAMAGES; label: string }[];

export const DamagePage = (): ReactNode => <SitePage title="Damage or injury">{(site) => <Report site={site} />}</SitePage>;

const PLACE = actKey('damage');
const BLANK = { where: '', note: '', client: '' };

function Report({ site: { record, acts, add } }: { site: Site }): ReactNode {
  const [what, setWhat] = useState<keyof typeof DAMAGES | null>(null);
  const [safety, setSafety] = useState(false);
  const [words, setWords] = useState(BLANK);
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
    setWhat(null);
    setSafety(false);
    setWords(BLANK);
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
      <Choices legend="What happened" name="damage" options={WHAT} value={what} onChange={setWhat} />
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
        label="What happened"
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
        onChange={(event) => setSafety(event.currentTarget.checked)}
      />
      <div className={classes.acts}>
        <Button size="xl" fullWidth disabled={what === null || words.note.trim() === ''} onClick={() => void put()}>
          Record it
        </Button>
      </div>
    </>
  );
}
