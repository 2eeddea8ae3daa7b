// Money and clearance of a callback: for owner and lead inspector.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { Alert, Button, Checkbox, Group, Stack, NativeSelect, SimpleGrid, TextInput, Textarea } from '@mantine/core';
import { CLEARANCES, type Callback } from '@backsight/contract/callbacks';
import { SOURCES } from '@backsight/contract/callbacks/remedies';
import { formatUsd, parseUsd } from '@backsight/domain/shared/money';
import { clearCallback, recover, setReserve } from '../../api/callbacks.ts';
import { useMe } from '../../api/people.ts';
import { puttingRightQuery } from '../../api/remedies.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Details } from '../../ui/Details.tsx';
import { Form } from '../../ui/Form.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { Insurer } from './Insurer.tsx';
import { useOneOpen } from './oneOpen.tsx';
import { TakeBack } from './TakeBack.tsx';
import { options } from './words.ts';

type Entry = NonNullable<Callback['moneyEntries']>[number];
const entriesWith = (reversible: readonly string[]): Column<Entry>[] => [
  ...ENTRIES,
  { key: 'back', head: 'Change', cell: (e) => (reversible.includes(e.id) ? <TakeBack entryId={e.id} memo={e.memo} /> : null) },
];
const ENTRIES: Column<Entry>[] = [
  { key: 'memo', head: 'What', cell: (e) => e.memo },
  { key: 'day', head: 'Day', cell: (e) => <Day day={e.happenedOn} /> },
  { key: 'by', head: 'Who', cell: (e) => e.by ?? '' },
  {
    key: 'lines',
    head: 'Ledger lines (debit +, credit -)',
    cell: (e) => e.lines.map((l) => `${l.name} ${formatUsd(l.cents)}`).join('; '),
  },
];

export function MoneyPanel({ callback: c }: { callback: Callback }): ReactNode {
  const money = c.money!;
  const open = c.state !== 'closed' && c.kind !== 'question' && c.kind !== 'near_miss';
  const untouched = (c.moneyEntries ?? []).length === 0 && (c.clearances ?? []).length === 0;
  const reversible = useQuery(puttingRightQuery(c.id)).data?.reversible ?? [];
  return (
    <>
      <Section
        title="Money"
        brief={
          untouched
            ? `Nothing set aside, paid or recovered.${open ? ' No offer, payment or refund leaves before consent or a reason is recorded.' : ''}`
            : null
        }
      >
        {(c.policyWarnings ?? []).map((text) => (
          <Alert key={text} mb="sm" title="Insurance">
            {text}
          </Alert>
        ))}
        {untouched ? null : (
          <Details
            rows={[
              ['Paid', <Money cents={money.paidCents} />],
              ['Set aside', <Money cents={money.reservedCents} />],
              ['Recovered', <Money cents={money.recoveredCents} />],
              ['Paid and set aside, less recovered', <Money cents={money.incurredCents} />],
              [
                'Consent or reason',
                (c.clearances ?? []).length === 0
                  ? 'None: no offer, payment or refund leaves yet'
                  : c.clearances!.map((x) => (
                      <div key={x.id}>
                        {`${CLEARANCES[x.kind]}: ${x.words ?? ''} (${x.by}, `}
                        <When at={x.happenedAt} />)
                      </div>
                    )),
              ],
            ]}
          />
        )}
        {(c.moneyEntries ?? []).length > 0 ? (
          <DataTable
            caption="Ledger entries of this callback"
            columns={entriesWith(reversible)}
            rows={c.moneyEntries!}
            rowKey={(e) => e.id}
          />
        ) : null}
        <Group align="start" mt={untouched ? 0 : 'md'}>
          {open ? (
            <>
              <Reserve id={c.id} />
              <Clear id={c.id} />
            </>
          ) : null}
          {money.paidCents > money.recoveredCents || open ? <Recovery id={c.id} /> : null}
        </Group>
      </Section>
      {c.kind === 'question' || c.kind === 'near_miss' ? null : <Insurer callback={c} />}
    </>
  );
}

const cents = (text: string): number => parseUsd(text) ?? -1;
const RESERVE = { cents: 'New amount set aside (0 releases it)', words: 'Why' };

function Reserve({ id }: { id: string }): ReactNode {
  const [open, setOpen] = useOneOpen('reserve');
  const send = useSend(setReserve, { refresh: ['callbacks'], said: 'The money set aside was changed.', then: () => setOpen(false) });
  const fields = useFields({ cents: '', words: '' }, RESERVE, send.error, undefined, 'reserve');
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Change what is set aside
      </Button>
    );
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={RESERVE}
        draft={fields.draft}
        submit="Set aside"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id, cents: cents(fields.values.cents), words: fields.values.words })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <TextInput {...fields.text('cents')} required inputMode="decimal" placeholder="250.00" />
        <Textarea {...fields.text('words')} required />
      </Form>
    </Stack>
  );
}

const CLEAR = { kind: 'What is on file', words: 'Who said so, when, and where it is written; or the reason' };

function Clear({ id }: { id: string }): ReactNode {
  const [open, setOpen] = useOneOpen('clear');
  const me = useMe();
  const send = useSend(clearCallback, { refresh: ['callbacks'], said: 'Recorded.', then: () => setOpen(false) });
  const fields = useFields({ kind: 'insurer_consent' as keyof typeof CLEARANCES, words: '' }, CLEAR, send.error, undefined, 'clear');
  const kinds = options(CLEARANCES).filter(({ value }) => value === 'insurer_consent' || me.roles.includes('owner'));
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Record consent or reason
      </Button>
    );
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={CLEAR}
        draft={fields.draft}
        submit="Record it"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id, ...fields.values })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('kind')} data={kinds} />
        <Textarea {...fields.text('words')} required />
      </Form>
    </Stack>
  );
}

const RECOVERY = {
  source: 'From',
  cents: 'Amount',
  receivedOn: 'Received on',
  words: 'What it was for',
  direct: 'The insurer paid the other side itself: nothing came to us',
};

function Recovery({ id }: { id: string }): ReactNode {
  const [open, setOpen] = useOneOpen('recover');
  const { zone } = useMe();
  const send = useSend(recover, { refresh: ['callbacks'], said: 'Recorded.', then: () => setOpen(false) });
  const fields = useFields(
    { source: 'insurer' as keyof typeof SOURCES, cents: '', receivedOn: todayIn(zone), words: '', direct: false },
    RECOVERY,
    send.error,
  );
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Record money that came back
      </Button>
    );
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={RECOVERY}
        draft={fields.draft}
        submit="Record it"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id, ...fields.values, cents: cents(fields.values.cents) })}
        besides={
          <Button variant="default" onClick={() => setOpen(false)}>
            Go back
          </Button>
        }
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <NativeSelect {...fields.text('source')} data={options(SOURCES)} />
          <TextInput {...fields.text('cents')} required inputMode="decimal" />
          <TextInput {...fields.text('receivedOn')} type="date" required />
        </SimpleGrid>
        {fields.values.source === 'insurer' ? <Checkbox {...fields.check('direct')} my="sm" /> : null}
        <TextInput {...fields.text('words')} required />
      </Form>
    </Stack>
  );
}
