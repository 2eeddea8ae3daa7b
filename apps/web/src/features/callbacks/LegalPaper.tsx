// A legal paper, for the owner: its days as they stand in it, and the list of the day on which it comes.
import type { ReactNode } from 'react';
import { Alert, Button, SimpleGrid, Stack, Textarea, TextInput } from '@mantine/core';
import { SAME_DAY, type CallbackClocks } from '@backsight/contract/callbacks/clocks';
import { answerPaper, setPaper, tickSameDay } from '../../api/callbackClocks.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Details } from '../../ui/Details.tsx';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';
import { useOneOpen } from './oneOpen.tsx';

type Paper = NonNullable<CallbackClocks['paper']>;
type Line = Paper['sameDay'][number];

export function LegalPaper({ id, paper }: { id: string; paper: Paper }): ReactNode {
  const { zone } = useMe();
  const late = paper.answered === null && paper.deadlineOn !== null && paper.deadlineOn < todayIn(zone);
  const columns: Column<Line>[] = [
    { key: 'item', head: 'The same day', cell: ({ item }) => SAME_DAY[item] },
    {
      key: 'done',
      head: 'Done',
      cell: ({ done }) =>
        done ? (
          <>
            <Day day={done.day} />
            {done.by ? `, ${done.by}` : ''}
          </>
        ) : (
          'not yet'
        ),
    },
    { key: 'words', head: 'Words', cell: ({ done, item }) => (done ? (done.words ?? '(erased)') : <Tick id={id} item={item} />) },
  ];
  return (
    <Section title="Legal paper">
      {late ? (
        <Alert color="red" title="The deadline was missed" mb="sm">
          Call the attorney now. Everything here was written down by hand: the paper itself goes before it.
        </Alert>
      ) : null}
      <Details
        rows={[
          [
            'Served',
            paper.servedOn ? (
              <>
                <Day day={paper.servedOn} />
                {`, ${paper.serviceWay ?? ''}`}
              </>
            ) : (
              'not written down'
            ),
          ],
          ['Deadline, by hand from the paper', paper.deadlineOn ? <Day day={paper.deadlineOn} /> : 'not written down'],
          [
            'Answered',
            paper.answered ? (
              <>
                <Day day={paper.answered.day} />
                {`, ${paper.answered.by ?? ''}: ${paper.answered.words ?? '(erased)'}`}
              </>
            ) : (
              'not yet'
            ),
          ],
        ]}
      />
      {paper.answered ? null : (
        <DayAct act="It was answered" label="What was sent to whom" send={(day, words) => answerPaper({ id, day, words })} />
      )}
      <SetDays id={id} paper={paper} />
      <DataTable caption="The same day" columns={columns} rows={paper.sameDay} rowKey={({ item }) => item} />
    </Section>
  );
}

const Tick = ({ id, item }: { id: string; item: Line['item'] }): ReactNode => (
  <DayAct
    act="Tick"
    name={SAME_DAY[item]}
    label="Whom you told, how, and what"
    send={(day, words) => tickSameDay({ id, item, day, words })}
  />
);

type DayProps = { act: string; name?: string; label: string; send: (day: string, words: string) => Promise<unknown> };

function DayAct({ act, name, label, send }: DayProps): ReactNode {
  const { zone } = useMe();
  const [open, setOpen] = useOneOpen(`paper ${name ?? act}`);
  const sending = useSend((sent: { day: string; words: string }) => send(sent.day, sent.words), {
    ...{ refresh: ['callbacks'], said: 'Written down.', then: () => setOpen(false) },
  });
  const labels = { day: 'On which day', words: label };
  const fields = useFields({ day: todayIn(zone), words: '' }, labels, sending.error, undefined, name ?? act);
  if (!open)
    return (
      <Button variant="default" size="compact-md" my="xs" me="xs" onClick={() => setOpen(true)} aria-label={name ? `${act}: ${name}` : act}>
        {act}
      </Button>
    );
  return (
    <Stack maw="40rem" my="sm">
      <Form
        error={sending.error}
        labels={labels}
        draft={fields.draft}
        submit={act}
        busy={sending.isPending}
        onSubmit={() => sending.mutate(fields.values)}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <TextInput {...fields.text('day')} type="date" required maw="14rem" />
        <Textarea {...fields.text('words')} required autosize minRows={2} />
      </Form>
    </Stack>
  );
}

const DAYS = { servedOn: 'Day of service', serviceWay: 'Way of service', deadlineOn: 'Deadline, from the paper', words: 'Why it changes' };

function SetDays({ id, paper }: { id: string; paper: Paper }): ReactNode {
  const [open, setOpen] = useOneOpen('paper days');
  const sending = useSend(setPaper, { refresh: ['callbacks'], said: 'The days were set.', then: () => setOpen(false) });
  const { servedOn, serviceWay, deadlineOn } = paper;
  const fields = useFields(
    { servedOn: servedOn ?? '', serviceWay: serviceWay ?? '', deadlineOn: deadlineOn ?? '', words: '' },
    DAYS,
    sending.error,
  );
  if (!open)
    return (
      <Button variant="default" size="compact-md" my="xs" onClick={() => setOpen(true)}>
        Set the days anew
      </Button>
    );
  return (
    <Stack maw="40rem" my="sm">
      <Form
        error={sending.error}
        labels={DAYS}
        draft={fields.draft}
        submit="Set these days"
        busy={sending.isPending}
        onSubmit={() => sending.mutate({ id, ...fields.values })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <SimpleGrid cols={{ base: 1, xs: 3 }}>
          <TextInput {...fields.text('servedOn')} type="date" required />
          <TextInput {...fields.text('serviceWay')} required />
          <TextInput {...fields.text('deadlineOn')} type="date" required />
        </SimpleGrid>
        <Textarea {...fields.text('words')} required autosize minRows={2} mt="sm" />
      </Form>
    </Stack>
  );
}
