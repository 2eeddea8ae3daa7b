// What if: one more inspector, another base, other driving speeds, over the visits of chosen weeks or of the year before.
import { useState, type ReactNode } from 'react';
import { NativeSelect, NumberInput, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import type { WhatIfChange } from '@backsight/contract/plans/whatIf';
import { newId } from '../../api/ids.ts';
import { townsQuery } from '../../api/jobs.ts';
import { peopleQuery, useMe } from '../../api/people.ts';
import { askWhatIf, plansQuery } from '../../api/plans.ts';
import { Form } from '../../ui/Form.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { PlanList } from './PlanList.tsx';

const LABELS = {
  kind: 'What would be otherwise',
  personId: 'Who',
  town: 'Based in',
  percent: 'Driving speed, percent of today’s',
  from: 'From the week of',
  weeks: 'How many weeks',
  visits: 'Whose visits',
};
const VISITS = [
  { value: 'either', label: 'Last year’s, else these weeks’' },
  { value: 'last_year', label: 'The same weeks of last year' },
  { value: 'these_weeks', label: 'These weeks themselves' },
] as const;
const KINDS = [
  { value: 'one_more', label: 'One more inspector' },
  { value: 'base', label: 'Another base for one person' },
  { value: 'speed', label: 'Faster or slower driving' },
];

export function WhatIfPage(): ReactNode {
  const plans = useQuery(plansQuery('what_if'));
  return (
    <Page
      title="What if"
      about="Plans the visits of some weeks, or of the same weeks of last year, anew with the firm as it is and as it would be. Nothing changes."
    >
      <Ask />
      <ProblemNote of={plans.error} />
      {plans.data && plans.data.items.length > 0 ? (
        <Section title="Asked lately">
          <PlanList plans={plans.data.items} />
        </Section>
      ) : null}
    </Page>
  );
}

type Values = {
  kind: string;
  personId: string;
  town: string;
  percent: number;
  from: string;
  weeks: number;
  visits: (typeof VISITS)[number]['value'];
};

const changeOf = ({ kind, personId, town, percent }: Values): WhatIfChange =>
  kind === 'speed'
    ? { kind, percent }
    : kind === 'base'
      ? { kind, personId, town }
      : { kind: 'one_more', likeId: personId, town: town === '' ? null : town };

function Ask(): ReactNode {
  const { zone } = useMe();
  const navigate = useNavigate();
  const people = useQuery(peopleQuery);
  const towns = useQuery(townsQuery);
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const ask = useSend(askWhatIf, {
    refresh: ['plans'],
    said: 'The weeks are being planned.',
    then: ({ id }) => {
      setIds({ id: newId(), key: newId() });
      void navigate({ to: '/what-if/$planId', params: { planId: id } });
    },
  });
  const fields = useFields<Values>(
    { kind: 'one_more', personId: '', town: '', percent: 90, from: todayIn(zone), weeks: 4, visits: 'either' },
    LABELS,
    ask.error,
  );
  const { values } = fields;
  const inspectors = (people.data ?? []).filter(({ roles, endedOn }) => endedOn === null && roles.includes('inspector'));
  const choose = (first: string, list: readonly { id: string; name: string }[]) => [
    { value: '', label: first },
    ...list.map(({ id, name }) => ({ value: id, label: name })),
  ];
  const townChoices = (towns.data ?? []).map(({ name }) => ({ id: name, name }));
  const send = () => ask.mutate({ ...ids, from: values.from, weeks: values.weeks, visits: values.visits, change: changeOf(values) });
  return (
    <Form
      error={ask.error ?? people.error ?? towns.error}
      labels={{ ...LABELS, change: 'Who and where' }}
      draft={fields.draft}
      submit="Plan these weeks"
      busy={ask.isPending}
      onSubmit={send}
    >
      <SimpleGrid cols={{ base: 1, xs: 2, md: 3 }}>
        <NativeSelect {...fields.text('kind')} data={KINDS} />
        {values.kind === 'speed' ? (
          <NumberInput {...fields.value('percent')} min={50} max={200} />
        ) : (
          <>
            <NativeSelect
              {...fields.text('personId')}
              label={values.kind === 'one_more' ? 'Hours and papers like' : LABELS.personId}
              data={choose('Choose', inspectors)}
              required
            />
            <NativeSelect
              {...fields.text('town')}
              data={choose(values.kind === 'one_more' ? 'The same place' : 'Choose', townChoices)}
              required={values.kind === 'base'}
            />
          </>
        )}
        <NativeSelect {...fields.text('visits')} data={[...VISITS]} />
        <TextInput {...fields.text('from')} type="date" required />
        <NumberInput {...fields.value('weeks')} min={1} max={12} />
      </SimpleGrid>
    </Form>
  );
}
