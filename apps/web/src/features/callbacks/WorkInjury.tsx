// Injuries of the firm's own people, for the owner: by when each is reported to the federal office, in real hours.
import { useState, type ReactNode } from 'react';
import { Alert, Button, NativeSelect, SimpleGrid, Stack, Textarea, TextInput } from '@mantine/core';
import { INJURIES, type CallbackClocks } from '@backsight/contract/callbacks/clocks';
import { noteInjury, reportInjury } from '../../api/callbackClocks.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Details } from '../../ui/Details.tsx';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { localInput, toInstant } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { useOneOpen } from './oneOpen.tsx';
import { WordsAct } from './WordsAct.tsx';

type Injury = NonNullable<CallbackClocks['injuries']>[number];
type What = Injury['what'];

export function WorkInjury({ id, injuries, source }: { id: string; injuries: readonly Injury[]; source: string }): ReactNode {
  return (
    <Section title="Injury of somebody of ours">
      <p>
        <small>8 hours for a death, 24 hours for an in-patient stay, an amputation or the loss of an eye, at any hour. {source}</small>
      </p>
      {injuries.map((injury) => (
        <One key={injury.injuryId} id={id} injury={injury} />
      ))}
      <Note id={id} />
    </Section>
  );
}

function One({
  id,
  injury: { injuryId, what, happenedAt, outcomeAt, learnedAt, words, dueAt, reportedAt },
}: {
  id: string;
  injury: Injury;
}): ReactNode {
  const late = dueAt !== null && reportedAt === null && Date.parse(dueAt) < Date.now();
  return (
    <>
      {late ? <Alert color="red" title="Not reported in time: report it now" mb="sm" /> : null}
      <Details
        rows={[
          ['What came of it', `${INJURIES[what]}: ${words ?? '(erased)'}`],
          ['Accident', <When key="h" at={happenedAt} />],
          ['It came about', <When key="o" at={outcomeAt} />],
          ['We heard of it', <When key="l" at={learnedAt} />],
          ['To be reported by', dueAt ? <When at={dueAt} /> : 'not by this rule: too long after the accident'],
          ['Reported', reportedAt ? <When at={reportedAt} /> : 'not yet'],
        ]}
      />
      {reportedAt || dueAt === null ? null : (
        <WordsAct
          act="It was reported just now"
          label="To whom, how, under which number"
          said="Written down."
          needed
          send={(said) => reportInjury({ id, injuryId, at: new Date().toISOString(), words: said ?? '' })}
        />
      )}
    </>
  );
}

const LABELS = {
  what: 'What came of it',
  happenedAt: 'Accident',
  outcomeAt: 'Death, admission or loss',
  learnedAt: 'When we heard of it',
  words: 'Who, where and how',
};

function Note({ id }: { id: string }): ReactNode {
  const { zone } = useMe();
  const [open, setOpen] = useOneOpen('injury');
  const [injuryId, renew] = useState(newId);
  const close = () => setOpen(false);
  const sending = useSend(noteInjury, {
    ...{ refresh: ['callbacks'], said: 'Written down. The hours run.' },
    then: () => {
      renew(newId());
      close();
    },
  });
  const now = localInput(new Date(), zone);
  const fields = useFields(
    { what: 'in_patient' as What, happenedAt: now, outcomeAt: now, learnedAt: now, words: '' },
    LABELS,
    sending.error,
  );
  if (!open)
    return (
      <Button variant="default" mt="sm" onClick={() => setOpen(true)}>
        Somebody of ours was hurt
      </Button>
    );
  const { what, words, ...times } = fields.values;
  const at = Object.fromEntries(Object.entries(times).map(([name, local]) => [name, toInstant(local, zone)])) as typeof times;
  return (
    <Stack maw="40rem">
      <Form
        error={sending.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Write it down"
        busy={sending.isPending}
        onSubmit={() => sending.mutate({ id, injuryId, what, words, ...at })}
        besides={
          <Button variant="default" onClick={close}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('what')} data={Object.entries(INJURIES).map(([value, label]) => ({ value, label }))} />
        <SimpleGrid cols={{ base: 1, xs: 3 }} mt="sm">
          <TextInput {...fields.text('happenedAt')} type="datetime-local" required />
          <TextInput {...fields.text('outcomeAt')} type="datetime-local" required />
          <TextInput {...fields.text('learnedAt')} type="datetime-local" required />
        </SimpleGrid>
        <Textarea {...fields.text('words')} required autosize minRows={2} mt="sm" />
      </Form>
    </Stack>
  );
}
