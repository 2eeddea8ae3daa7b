// A claim that went to court: the case, how it ended, what is paid on it.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect, SimpleGrid, Stack, TextInput, Textarea } from '@mantine/core';
import { COURT_ENDS, type CourtCase } from '@backsight/contract/callbacks/remedies';
import { formatUsd, parseUsd } from '@backsight/domain/shared/money';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { endCase, openCase, payCase } from '../../api/remedies.ts';
import { Details } from '../../ui/Details.tsx';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn, dayText } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';
import { options } from './words.ts';

const cents = (text: string): number => (text.trim() === '' ? 0 : (parseUsd(text) ?? -1));

export function Court({ id, cases, open }: { id: string; cases: CourtCase[]; open: boolean }): ReactNode {
  const [filing, setFiling] = useOneOpen('court');
  if (cases.length === 0 && !open) return null;
  return (
    <Section
      title="Court"
      brief={cases.length === 0 ? 'No case.' : null}
      actions={
        open && !filing ? (
          <Button variant="default" onClick={() => setFiling(true)}>
            It went to court
          </Button>
        ) : null
      }
    >
      {cases.map((one) => (
        <Case key={one.id} one={one} open={open} />
      ))}
      {filing ? <File id={id} onDone={() => setFiling(false)} /> : null}
    </Section>
  );
}

function Case({ one, open }: { one: CourtCase; open: boolean }): ReactNode {
  const { outcome } = one;
  return (
    <div style={{ marginBottom: 'var(--bs-space-6)' }}>
      <Details
        rows={[
          ['Case', `${one.court}, ${one.reference}, filed on ${dayText(one.filedOn)}`],
          ['Claimed', formatUsd(one.claimedCents)],
          ...(one.answerDueOn ? [['Answer due', one.answerDueOn] as const] : []),
          [
            'Outcome',
            outcome
              ? `${COURT_ENDS[outcome.kind]} on ${dayText(outcome.decidedOn)}: ${formatUsd(outcome.owedCents)}, costs ${formatUsd(outcome.costsCents)}. ${outcome.words ?? ''}`
              : 'none yet',
          ],
          ...(outcome ? [['Paid', `${formatUsd(one.paidOwedCents)}, costs ${formatUsd(one.paidCostsCents)}`] as const] : []),
        ]}
      />
      {open ? (
        <Group align="start" mt="xs">
          <End one={one} />
          {outcome && one.paidOwedCents + one.paidCostsCents < outcome.owedCents + outcome.costsCents ? <Pay one={one} /> : null}
        </Group>
      ) : null}
    </div>
  );
}

const FILE = {
  court: 'Court',
  reference: 'Case number',
  filedOn: 'Filed on',
  answerDueOn: 'Answer due on',
  claimedCents: 'Amount claimed',
};

function File({ id, onDone }: { id: string; onDone: () => void }): ReactNode {
  const [caseId] = useState(newId);
  const send = useSend(openCase, { refresh: ['callbacks'], said: 'The case is recorded.', then: onDone });
  const fields = useFields({ court: '', reference: '', filedOn: '', answerDueOn: '', claimedCents: '' }, FILE, send.error);
  const v = fields.values;
  const submit = () => send.mutate({ id, caseId, ...v, answerDueOn: v.answerDueOn || null, claimedCents: cents(v.claimedCents) });
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={FILE}
        draft={fields.draft}
        submit="Record the case"
        busy={send.isPending}
        onSubmit={submit}
        besides={<Back onBack={onDone} />}
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <TextInput {...fields.text('court')} required />
          <TextInput {...fields.text('reference')} required />
          <TextInput {...fields.text('filedOn')} type="date" required />
          <TextInput {...fields.text('answerDueOn')} type="date" />
          <TextInput {...fields.text('claimedCents')} required inputMode="decimal" />
        </SimpleGrid>
      </Form>
    </Stack>
  );
}

const END = { kind: 'It ended with', decidedOn: 'Decided on', owedCents: 'To be paid', costsCents: 'Costs', words: 'In words' };

function End({ one }: { one: CourtCase }): ReactNode {
  const [open, setOpen] = useOneOpen(`case-${one.id}`);
  const [outcomeId, setOutcomeId] = useState(newId);
  const done = () => {
    setOpen(false);
    setOutcomeId(newId());
  };
  const send = useSend(endCase, { refresh: ['callbacks'], said: 'The outcome is recorded.', then: done });
  const fields = useFields(
    { kind: 'judgment' as keyof typeof COURT_ENDS, decidedOn: '', owedCents: '', costsCents: '', words: '' },
    END,
    send.error,
    undefined,
    one.id,
  );
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        {one.outcome ? 'Correct the outcome' : 'Record the outcome'}
      </Button>
    );
  const { kind, decidedOn, owedCents, costsCents, words } = fields.values;
  const amounts = { owedCents: cents(owedCents), costsCents: cents(costsCents) };
  const submit = () => send.mutate({ id: one.id, outcomeId, kind, decidedOn, ...amounts, ...(words.trim() ? { words } : {}) });
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={END}
        draft={fields.draft}
        submit="Record it"
        busy={send.isPending}
        onSubmit={submit}
        besides={<Back onBack={() => setOpen(false)} />}
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <NativeSelect {...fields.text('kind')} data={options(COURT_ENDS)} />
          <TextInput {...fields.text('decidedOn')} type="date" required />
          <TextInput {...fields.text('owedCents')} inputMode="decimal" />
          <TextInput {...fields.text('costsCents')} inputMode="decimal" />
        </SimpleGrid>
        <Textarea {...fields.text('words')} autosize minRows={2} />
      </Form>
    </Stack>
  );
}

const PAY = { what: 'Of', cents: 'Amount', paidOn: 'Paid on' };

function Pay({ one }: { one: CourtCase }): ReactNode {
  const [open, setOpen] = useOneOpen(`pay-case-${one.id}`);
  const { zone } = useMe();
  const send = useSend(payCase, { refresh: ['callbacks'], said: 'Paid.', then: () => setOpen(false) });
  const fields = useFields({ what: 'owed' as 'owed' | 'costs', cents: '', paidOn: todayIn(zone) }, PAY, send.error);
  const { what, cents: amount, paidOn } = fields.values;
  if (!open) return <Button onClick={() => setOpen(true)}>Record a payment on it</Button>;
  const submit = () => send.mutate({ id: one.id, what, cents: cents(amount), paidOn });
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={PAY}
        submit="Record it"
        busy={send.isPending}
        onSubmit={submit}
        besides={<Back onBack={() => setOpen(false)} />}
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <NativeSelect {...fields.text('what')} data={options({ owed: 'what is to be paid', costs: 'the costs' })} />
          <TextInput {...fields.text('cents')} required inputMode="decimal" />
          <TextInput {...fields.text('paidOn')} type="date" required />
        </SimpleGrid>
      </Form>
    </Stack>
  );
}

const Back = ({ onBack }: { onBack: () => void }): ReactNode => (
  <Button variant="default" onClick={onBack}>
    Go back
  </Button>
);
