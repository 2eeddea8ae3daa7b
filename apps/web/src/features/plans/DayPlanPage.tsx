// Day plan: choose the days, weigh, and let them be planned; the newest plans below.
import { useState, type ReactNode } from 'react';
import { Checkbox, Input, SegmentedControl, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import { DateTime } from 'luxon';
import type { PlanWeights } from '@backsight/contract/plans';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { askDayPlan, plansQuery } from '../../api/plans.ts';
import { Form } from '../../ui/Form.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { PlanList } from './PlanList.tsx';
import { Weights } from './Weights.tsx';

const route = getRouteApi('/shell/day-plan');
const LABELS = {
  from: 'First day',
  span: 'How many days',
  acrossDays: 'Visits may go to another of these days, where the client was promised several days',
  changingPartners: 'Partners may change during a day',
};
const SPANS = [
  { value: '1', label: 'That day' },
  { value: '5', label: '5 days' },
  { value: '7', label: '7 days' },
];
const plus = (day: string, days: number): string => DateTime.fromISO(day, { zone: 'utc' }).plus({ days }).toFormat('yyyy-MM-dd');

export function DayPlanPage(): ReactNode {
  const { zone } = useMe();
  const navigate = useNavigate();
  const asked = route.useSearch().from;
  const plans = useQuery(plansQuery('day_plan'));
  const [weights, setWeights] = useState<Partial<PlanWeights>>({});
  const ask = useSend(askDayPlan, {
    refresh: ['plans'],
    said: 'The days are being planned.',
    then: ({ id }) => void navigate({ to: '/day-plan/$planId', params: { planId: id } }),
  });
  const fields = useFields(
    { from: asked ?? plus(todayIn(zone), 1), span: '1', acrossDays: false, changingPartners: false },
    LABELS,
    ask.error,
  );
  const { from, span, acrossDays, changingPartners } = fields.values;
  const send = () =>
    ask.mutate({
      id: newId(),
      key: newId(),
      from,
      to: from === '' ? '' : plus(from, Number(span) - 1),
      weights,
      acrossDays: acrossDays && span !== '1',
      changingPartners,
    });
  return (
    <Page
      title="Day plan"
      about="Pairs, order and times of the booked visits, planned anew within what was promised. Nothing changes until you accept it."
    >
      <Form error={ask.error} labels={LABELS} draft={fields.draft} submit="Plan these days" busy={ask.isPending} onSubmit={send}>
        <SimpleGrid cols={{ base: 1, xs: 2 }} mb="sm">
          <TextInput {...fields.text('from')} type="date" required />
          <Input.Wrapper label={LABELS.span} labelElement="div" id="span">
            <SegmentedControl
              aria-label={LABELS.span}
              data={SPANS}
              value={span}
              onChange={(value) => fields.set('span', value)}
              fullWidth
            />
          </Input.Wrapper>
        </SimpleGrid>
        {span === '1' ? null : (
          <Checkbox
            label={LABELS.acrossDays}
            description="All days become one question with one proof, which takes longer. What a client was promised is said on the page “What plans keep” of a visit."
            checked={acrossDays}
            onChange={(event) => fields.set('acrossDays', event.currentTarget.checked)}
            mb="sm"
          />
        )}
        <Checkbox
          label={LABELS.changingPartners}
          description="After the plan of pairs that stay together, looked for without a proof."
          checked={changingPartners}
          onChange={(event) => fields.set('changingPartners', event.currentTarget.checked)}
          mb="sm"
        />
        {plans.data ? <Weights standard={plans.data.weights} chosen={weights} change={setWeights} /> : null}
      </Form>
      <ProblemNote of={plans.error} />
      {plans.data && plans.data.items.length > 0 ? (
        <Section title="Plans made lately">
          <PlanList plans={plans.data.items} />
        </Section>
      ) : null}
    </Page>
  );
}
