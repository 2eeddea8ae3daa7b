// One plan: how far it is while it is made, then what it would change, what to accept, and whom to call.
import { useState, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { ShownPlan } from '@backsight/contract/plans';
import { planQuery } from '../../api/plans.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { dayText } from '../../ui/time.ts';
import { Answer } from './Answer.tsx';
import { Calls } from './Calls.tsx';
import { Progress } from './Progress.tsx';
import { Variants } from './Variants.tsx';

const route = getRouteApi('/shell/day-plan/$planId');
const TITLE: Record<ShownPlan['kind'], string> = {
  day_plan: 'Plan',
  sick_call: 'Somebody is out',
  weather: 'Closed for weather',
  what_if: 'What if',
};
const AGAIN = { day_plan: '/day-plan', sick_call: '/sick-call', weather: '/weather', what_if: '/what-if' } as const;

export function PlanPage(): ReactNode {
  const { planId } = route.useParams();
  const plan = useQuery(planQuery(planId));
  if (!plan.data)
    return (
      <Page title="Plan">
        <ProblemNote of={plan.error} />
        {plan.isPending ? <Loading /> : null}
      </Page>
    );
  const { kind, fromDay, toDay, outName, askedBy } = plan.data;
  const days = fromDay === toDay ? dayText(fromDay) : `${dayText(fromDay)} to ${dayText(toDay)}`;
  return (
    <Page
      title={outName ? `${TITLE[kind]}: ${outName}` : `${TITLE[kind]}: ${days}`}
      about={outName ? `${days}. Asked by ${askedBy}.` : `Asked by ${askedBy}.`}
      actions={
        <ButtonLink to={AGAIN[kind]} variant="default">
          Plan anew
        </ButtonLink>
      }
    >
      <ProblemNote of={plan.error} />
      {plan.data.state === 'asked' ? <Progress plan={plan.data} /> : null}
      {plan.data.note ? <Empty>{plan.data.note}</Empty> : null}
      {plan.data.calls.length > 0 ? <Calls plan={plan.data} /> : null}
      {plan.data.answer ? <Shown plan={plan.data} /> : null}
    </Page>
  );
}

/** The one answer, or the chosen one of three. */
function Shown({ plan }: { plan: ShownPlan }): ReactNode {
  const variants = plan.answer!.variants.filter(({ days }) => days.length > 0);
  const accepted = plan.accepted[0]?.split('/')[0];
  const [chosen, setChosen] = useState(accepted ?? variants[0]?.key);
  const variant = variants.find(({ key }) => key === chosen) ?? variants[0];
  if (!variant) return <Empty>There is no visit on these days that could be planned.</Empty>;
  return (
    <>
      {plan.changedSince ? (
        <Empty>Visits or people of these days changed since. Moves that no longer fit are refused; or plan anew.</Empty>
      ) : null}
      {variants.length > 1 ? (
        <Section title="Three ways">
          <Variants plan={plan} variants={variants} chosen={variant.key} choose={setChosen} />
        </Section>
      ) : null}
      <Answer key={variant.key} plan={plan} variant={variant} />
    </>
  );
}
