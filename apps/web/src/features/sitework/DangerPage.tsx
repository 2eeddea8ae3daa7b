// Danger to people here: what to do stands first, at once; what is recorded comes after everybody is out.
import type { ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { useNavigate } from '@tanstack/react-router';
import { actKey, DANGERS, type Danger } from '@backsight/domain/sitework/act';
import { placeOf } from '@backsight/domain/sitework/value';
import { DANGER_ADVICE } from '@backsight/domain/sitework/hazards';
import { useDraft } from '../../api/phone/drafts.ts';
import { Choices } from './Choices.tsx';
import { useTaken } from './photoModel.ts';
import { PhotoTaker } from './PhotoTaker.tsx';
import { SitePage, type Site } from './SitePage.tsx';
import classes from './sitework.module.css';

const WHAT = (Object.keys(DANGERS) as Danger[]).map((key) => ({ key, label: DANGERS[key] }));

type Typed = { what: Danger | null; house: 'told' | 'nobody_there' | null; words: { house: string; called: string; note: string } };
const BLANK: Typed = { what: null, house: null, words: { house: '', called: '', note: '' } };
const PLACE = placeOf({ stepKey: actKey('danger'), itemId: null });

export const DangerPage = (): ReactNode => (
  <SitePage title="Danger to people here" about="Leave first. Recording can wait until everybody is out.">
    {(site) => <Met site={site} />}
  </SitePage>
);

function Met({ site: { record, add } }: { site: Site }): ReactNode {
  const navigate = useNavigate();
  const [{ what, house, words }, change] = useDraft(record.id, PLACE, BLANK);
  const word = (key: keyof typeof words, label: string) => (
    <TextInput
      label={label}
      size="lg"
      mt="sm"
      value={words[key]}
      onChange={(event) => change({ words: { ...words, [key]: event.currentTarget.value } })}
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
      <Choices legend="What it is" name="danger" options={WHAT} value={what} onChange={(one) => change({ what: one })} />
      <Choices
        legend="Whoever is in the house"
        name="house"
        options={[
          { key: 'told', label: 'was told to leave' },
          { key: 'nobody_there', label: 'nobody else is here' },
        ]}
        value={house}
        onChange={(one) => change({ house: one })}
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
