// What is charged when a visit does not go as booked, how long tests take, and the prices of later looks.
import type { ReactNode } from 'react';
import { NumberInput, SimpleGrid } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { DeskRulesPage } from '@backsight/contract/jobs/desk';
import { changeDeskRules, deskRulesQuery } from '../../api/desk.ts';
import { numberTyped } from '../../ui/amount.ts';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

export function DeskRules(): ReactNode {
  const { data, error } = useQuery(deskRulesQuery);
  return (
    <Section folds title="When a visit does not go as booked">
      <ProblemNote of={error} />
      {data ? <RulesForm key={data.version} page={data} /> : null}
    </Section>
  );
}

const LABELS = {
  refused_at_the_door: 'Refused at the door, percent of the fee',
  nobody_came: 'Nobody came, percent of the fee',
  stopped_for_safety: 'Stopped by the pair for safety, percent of the fee',
  stopped_by_client: 'Stopped by the client, percent of the fee',
  hours: 'Late is less than so many hours before',
  fullHours: 'The whole fee is due less than so many hours before; 0 = never',
  movePercent: 'Moved late, percent of the fee',
  moveDollars: 'Moved late, dollars instead of the percent; 0 = percent',
  cancelPercent: 'Cancelled late, percent of the fee',
  cancelDollars: 'Cancelled late, dollars instead of the percent; 0 = percent',
  shortestHours: 'Hours that a radon test runs at least',
  closedHouseHours: 'Hours that the house is closed before it',
  holdingHours: 'Hours until a sample is at the laboratory',
};
type Name = keyof typeof LABELS;
const NAMES = Object.keys(LABELS) as Name[];

function RulesForm({ page: { version, rules } }: { page: DeskRulesPage }): ReactNode {
  const save = useSend(changeDeskRules, { refresh: ['desk-rules'], said: 'The rules count for what is booked from now on.' });
  const prices = Object.fromEntries(rules.laterLooks.map(({ key, cents }) => [`look-${key}`, cents / 100]));
  const labels = {
    ...LABELS,
    ...Object.fromEntries(rules.laterLooks.map(({ key, label }) => [`look-${key}`, `${label}, price in dollars`])),
  };
  const { fullHours = 0, moveCents = 0, cancelCents = 0, ...late } = rules.late;
  const later = { fullHours, moveDollars: moveCents / 100, cancelDollars: cancelCents / 100 };
  const fields = useFields<Record<string, number>>(
    { ...rules.endings, ...late, ...later, ...rules.radon, holdingHours: rules.holdingHours, ...prices },
    labels,
    save.error,
    'desk',
  );
  const of = (name: string): number => numberTyped(fields.values[name]);
  const send = () =>
    save.mutate({
      version,
      rules: {
        endings: {
          refused_at_the_door: of('refused_at_the_door'),
          nobody_came: of('nobody_came'),
          stopped_for_safety: of('stopped_for_safety'),
          stopped_by_client: of('stopped_by_client'),
        },
        late: {
          hours: of('hours'),
          movePercent: of('movePercent'),
          cancelPercent: of('cancelPercent'),
          fullHours: of('fullHours'),
          moveCents: Math.round(of('moveDollars') * 100),
          cancelCents: Math.round(of('cancelDollars') * 100),
        },
        radon: { shortestHours: of('shortestHours'), closedHouseHours: of('closedHouseHours') },
        holdingHours: of('holdingHours'),
        laterLooks: rules.laterLooks.map((look) => ({ ...look, cents: Math.round(of(`look-${look.key}`) * 100) })),
      },
    });
  return (
    <Form
      error={save.error}
      labels={labels}
      scope="desk"
      draft={fields.draft}
      submit="Save these rules"
      busy={save.isPending}
      onSubmit={send}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        {[...NAMES, ...Object.keys(prices)].map((name) => (
          <NumberInput key={name} {...fields.number(name)} allowNegative={false} />
        ))}
      </SimpleGrid>
    </Form>
  );
}
