// How it came in: the mail, the dangers, the photos, and the earlier or later ones that it belongs to.
import type { ReactNode } from 'react';
import { Button, FileButton, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { STATES, type Callback } from '@backsight/contract/callbacks';
import { CAUGHT_BY, WAYS, type CallbackIntake, type EarlierCallback } from '@backsight/contract/callbacks/intake';
import { addCallbackPhoto, callbackOriginalAddress, callbackPhotoAddress, cameInQuery, unlinkCallback } from '../../api/callbackIntake.ts';
import { Details } from '../../ui/Details.tsx';
import { TextLink } from '../../ui/links.tsx';
import { PhotoStrip } from '../../ui/PhotoStrip.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { ChangeJob } from './ChangeJob.tsx';
import { LinkEarlier } from './LinkEarlier.tsx';
import { DANGERS } from './words.ts';
import { WordsAct } from './WordsAct.tsx';

const capital = (words: string): string => `${words[0]!.toUpperCase()}${words.slice(1)}.`;

type Row = readonly [string, ReactNode];

export function CameIn({ callback }: { callback: Callback }): ReactNode {
  const found = useQuery(cameInQuery(callback.id));
  const came = found.data;
  if (!came) return <ProblemNote of={found.error} />;
  const rows = rowsOf(came);
  const brief = rows.length === 1 && came.way ? capital(WAYS[came.way]) : null;
  return (
    <Section title="How it came in" folds brief={brief}>
      {came.sameAs ? (
        <p role="note">
          <strong>{`This is the same as number ${came.sameAs.number}.`}</strong> It has no clock of its own and counts in no rate; go on
          there: <To one={came.sameAs} />
        </p>
      ) : null}
      {rows.length > 0 && !brief ? <Details rows={rows} /> : null}
      {came.duplicates.map((one) => (
        <p key={one.id}>
          {`Said once more (number ${one.number}, `}
          <When at={one.receivedAt} />
          {'): '}
          <span style={{ whiteSpace: 'pre-wrap' }}>{one.words ?? '(erased)'}</span>
        </p>
      ))}
      <Photos callback={callback} came={came} />
      <Group align="start" mt="sm">
        <AddPhoto id={callback.id} />
        {callback.kind === 'near_miss' ? null : <Linking callback={callback} came={came} />}
        {came.sameAs ? null : <ChangeJob callback={callback} />}
      </Group>
    </Section>
  );
}

function rowsOf(came: CallbackIntake): Row[] {
  const list = (label: string, all: readonly EarlierCallback[]): Row[] =>
    all.length === 0 ? [] : [[label, all.map((one) => <To key={one.id} one={one} />)]];
  return [
    ...(came.way ? [['Came', WAYS[came.way]] as const] : []),
    ...(came.mail ? [['Mail', `from ${came.mail.sender}: ${came.mail.reference}`] as const] : []),
    ...(came.dangers.length > 0
      ? [['Danger from', came.dangers.map((danger) => DANGERS[danger].split(':')[0]!.toLowerCase()).join(', ')] as const]
      : []),
    ...(came.caughtBy ? [['Caught by', CAUGHT_BY[came.caughtBy]] as const] : []),
    ...(came.step ? [['At the step', came.step] as const] : []),
    ...list('It came back after', came.cameBackAfter ? [came.cameBackAfter] : []),
    ...list('It came back as', came.cameBackAs),
    ...list('The same, said once more', came.duplicates),
  ];
}

const To = ({ one }: { one: EarlierCallback }): ReactNode => (
  <span>
    <TextLink to="/callbacks/$callbackId" params={{ callbackId: one.id }}>{`number ${one.number}`}</TextLink>
    {` (${STATES[one.state]}) `}
  </span>
);

function Photos({ callback, came }: { callback: Callback; came: CallbackIntake }): ReactNode {
  const originals = came.photos.filter(({ mayOpenOriginal }) => mayOpenOriginal);
  return (
    <>
      <PhotoStrip
        photos={came.photos.map(({ id, name, number, by }) => ({
          id,
          alt: `Photo ${name}`,
          words: `${by ? `added by ${by}` : 'from the client'}${number === callback.number ? '' : `, with number ${number}`}`,
          address: { small: callbackPhotoAddress(callback.id, id, 'small'), full: callbackPhotoAddress(callback.id, id, 'full') },
        }))}
      />
      {originals.length > 0 ? (
        <details>
          <summary>Photos as they were sent</summary>
          <ul>
            {originals.map(({ id, name, at }) => (
              <li key={id}>
                <a href={callbackOriginalAddress(callback.id, id)}>{name}</a>, <When at={at} />
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </>
  );
}

/** One after the other, so that each says its own refusal. */
function AddPhoto({ id }: { id: string }): ReactNode {
  const send = useSend(
    async (files: File[]) => {
      for (const file of files) await addCallbackPhoto({ id, file });
    },
    { refresh: ['callbacks'], said: 'The photos are on file.' },
  );
  return (
    <div>
      <ProblemNote of={send.error} />
      <FileButton multiple accept="image/*" onChange={(files) => files.length > 0 && send.mutate(files)}>
        {(props) => (
          <Button variant="default" loading={send.isPending} {...props}>
            Add photos that came with it
          </Button>
        )}
      </FileButton>
    </div>
  );
}

function Linking({ callback, came }: { callback: Callback; came: CallbackIntake }): ReactNode {
  return came.sameAs || came.cameBackAfter ? (
    <WordsAct
      act="Take the link back"
      label="Why the link is wrong"
      said="The link was taken back."
      needed
      send={(words) => unlinkCallback({ id: callback.id, words: words ?? '' })}
    />
  ) : (
    <LinkEarlier callback={callback} />
  );
}
