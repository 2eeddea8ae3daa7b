// Danger to people here: what to do stands first, at once; what is recorded comes after everybody is out.
import { useState, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import { actKey, DANGERS, type Danger } from '@backsight/domain/sitework/act';
import { DANGER_ADVICE } from '@backsight/domain/sitework/hazards';
import { Choices } from './Choices.tsx';
import { PhotoTaker, useTaken } from './PhotoTaker.tsx';
import { SitePage, type Site } from './SitePage.tsx';
import classes from './sitework.module.css';

const PLACE = actKey('danger');
const WHAT = (Object.keys(DANGERS) as Danger[]).map((key) => ({ key, label: DANGERS[key] }));

export const DangerPage = (): ReactNode => (
  <SitePage title="Danger to people here" about="Leave first. Recording can wait until everybody is out.">
    {(site) => <Met site={site} />}
  </SitePage>
);

function Met({ site: { record, add } }: { site: Site }): ReactNode {
  const navigate = useNavigate();
  const [what, setWhat] = useState<Danger | null>(null);
  const [house, setHouse] = useState<'told' | 'nobody_there' | null>(null);
  const [words, setWords] = useState({ house: '', called: '', note: '' });
  const word = (key: keyof typeof words, label: string) => (
    <TextInput
      label={label}
      size="lg"
      mt="sm"
      value={words[key]}
      onChange={(event) => setWords({ ...words, [key]: event.currentTarget.value })}
    />
  );
  const taken = useTaken(record.id).get(PLACE) ?? [];
  const put = async () => {
    if (what === null || house === null) return;
    const photos = taken.map(({ id }) => id);
    if (!(await add({ do: 'danger', what, house, called: words.called.trim() !== '' }, words, record.me, photos))) return;
    await navigate({ to: '/records/$recordId/seal', params: { recordId: record.id } });
  };
  return (
    <>
      <div className={classes.caution}>
        <strong>Leave now.</strong>
        <ul className={classes.plain}>
          {DANGER_ADVICE[what ?? 'other']!.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        <a className={classes.call} href="tel:911">
          Call 911
        </a>
      </div>
      <Choices legend="What it is" name="danger" options={WHAT} value={what} onChange={setWhat} />
      <Choices
        legend="Whoever is in the house"
        name="house"
        options={[
          { key: 'told', label: 'was told to leave' },
          { key: 'nobody_there', label: 'nobody else is here' },
        ]}
        value={house}
        onChange={setHouse}
      />
      {house === 'told' ? word('house', 'Who was told (not needed)') : null}
      {word('called', 'Who was called (not needed)')}
      {word('note', 'Note (not needed)')}
      <PhotoTaker
        recordId={record.id}
        place={PLACE}
        legend="Photos (not needed)"
        words="Only from where it is safe. Never go back in for one."
      />
      <p className={classes.soft}>
        Office and client are written to as soon as there is signal. Every step that is still open is closed as "could not be inspected
        safely"; nobody asks why.
      </p>
      <div className={classes.acts}>
        <Button size="xl" fullWidth disabled={what === null || house === null} onClick={() => void put()}>
          Record it
        </Button>
      </div>
    </>
  );
}
