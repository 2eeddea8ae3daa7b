// The insurer of a callback: under which policy it falls, what of the cover is used, what the insurer was told, and the court.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect, SimpleGrid, Stack, TextInput, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import type { PuttingRight } from '@backsight/contract/callbacks/remedies';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { namePolicy, notifyInsurer, puttingRightQuery } from '../../api/remedies.ts';
import { Details } from '../../ui/Details.tsx';
import { Form } from '../../ui/Form.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn, dayText } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';
import { Court } from './Court.tsx';
import { useOneOpen } from './oneOpen.tsx';

export function Insurer({ callback: c }: { callback: Callback }): ReactNode {
  const me = useMe();
  const right = useQuery(puttingRightQuery(c.id)).data;
  const open = c.state !== 'closed';
  if (!right) return null;
  return (
    <>
      <Section title="Insurance">
        <Details
          rows={[
            [
              'Policy',
              c.policy
                ? `${c.policy.insurer} ${c.policy.number}, ends ${dayText(c.policy.endsOn)}, notice to ${c.policy.noticeAddress}`
                : 'None on record',
            ],
            ...cover(right.cover ?? null),
            [
              'The insurer was told',
              (right.notices ?? []).length === 0
                ? 'Not yet'
                : right.notices!.map((n) => (
                    <div key={n.id}>
                      <Day day={n.notifiedOn} />
                      {`, ${n.way}${n.reference ? `, ${n.reference}` : ''}, by ${n.by}: ${n.words ?? '(erased)'}`}
                    </div>
                  )),
            ],
          ]}
        />
        <Group align="start" mt="md">
          <Notify id={c.id} />
          {open && me.roles.includes('owner') ? (
            <OtherPolicy id={c.id} policies={right.policies ?? []} now={right.cover?.policyId ?? ''} />
          ) : null}
        </Group>
      </Section>
      <Court id={c.id} cases={right.cases ?? []} open={open} />
    </>
  );
}

type Row = readonly [string, ReactNode];

function cover(of: NonNullable<PuttingRight['cover']> | null): Row[] {
  if (!of) return [];
  return [
    [
      'Deductible',
      <>
        <Money cents={of.usedCents} />
        {' used of '}
        <Money cents={of.deductibleCents} />
      </>,
    ],
    ...(of.beyondCents > 0
      ? [
          [
            'Beyond it',
            <>
              <Money cents={of.beyondCents} />
              {' is the insurer’s; still to come '}
              <Money cents={of.toComeCents} />
            </>,
          ] as const,
        ]
      : []),
    ...(of.directCents > 0 ? [['Paid by the insurer itself', <Money key="direct" cents={of.directCents} />] as const] : []),
    ['Left for all claims', of.aggregateLeftCents === null ? 'the policy names no such limit' : <Money cents={of.aggregateLeftCents} />],
  ];
}

const NOTICE = { notifiedOn: 'Told on', way: 'How', reference: 'Number that the insurer gave', words: 'What was reported' };

function Notify({ id }: { id: string }): ReactNode {
  const [open, setOpen] = useOneOpen('notify');
  const { zone } = useMe();
  const [noticeId, setNoticeId] = useState(newId);
  const done = () => {
    setOpen(false);
    setNoticeId(newId());
  };
  const send = useSend(notifyInsurer, { refresh: ['callbacks'], said: 'Recorded.', then: done });
  const fields = useFields({ notifiedOn: todayIn(zone), way: 'e-mail', reference: '', words: '' }, NOTICE, send.error);
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Record a notice to the insurer
      </Button>
    );
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={NOTICE}
        draft={fields.draft}
        submit="Record it"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id, noticeId, ...fields.values })}
        besides={<Back onBack={() => setOpen(false)} />}
      >
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <TextInput {...fields.text('notifiedOn')} type="date" required />
          <TextInput {...fields.text('way')} required />
        </SimpleGrid>
        <TextInput {...fields.text('reference')} />
        <Textarea {...fields.text('words')} required autosize minRows={2} />
      </Form>
    </Stack>
  );
}

const POLICY = { policyId: 'It falls under', words: 'Why' };

function OtherPolicy({ id, policies, now }: { id: string; policies: { id: string; name: string }[]; now: string }): ReactNode {
  const [open, setOpen] = useOneOpen('policy');
  const send = useSend(namePolicy, { refresh: ['callbacks'], said: 'The policy was changed.', then: () => setOpen(false) });
  const fields = useFields({ policyId: now, words: '' }, POLICY, send.error, undefined, 'policy');
  const { policyId, words } = fields.values;
  if (!open)
    return (
      <Button variant="default" onClick={() => setOpen(true)}>
        Another policy
      </Button>
    );
  return (
    <Stack maw="40rem">
      <Form
        error={send.error}
        labels={POLICY}
        draft={fields.draft}
        submit="Change the policy"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id, policyId: policyId || null, words })}
        besides={<Back onBack={() => setOpen(false)} />}
      >
        <NativeSelect
          {...fields.text('policyId')}
          data={[{ value: '', label: 'No policy' }, ...policies.map((p) => ({ value: p.id, label: p.name }))]}
        />
        <Textarea {...fields.text('words')} required autosize minRows={2} />
      </Form>
    </Stack>
  );
}

const Back = ({ onBack }: { onBack: () => void }): ReactNode => (
  <Button variant="default" onClick={onBack}>
    Go back
  </Button>
);
