// The answer to a what-if: visits that fit and driving, week by week, as it is and as it would be.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { WhatIf } from '@backsight/contract/plans/whatIf';
import { whatIfQuery } from '../../api/plans.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { dayText } from '../../ui/time.ts';
import { Progress } from './Progress.tsx';
import { minutesText } from '../../ui/minutes.ts';

const route = getRouteApi('/shell/what-if/$planId');
type Week = NonNullable<WhatIf['answer']>['weeks'][number];

export function WhatIfAnswerPage(): ReactNode {
  const { planId } = route.useParams();
  const asked = useQuery(whatIfQuery(planId));
  if (!asked.data)
    return (
      <Page title="What if">
        <ProblemNote of={asked.error} />
        {asked.isPending ? <Loading /> : null}
      </Page>
    );
  const { inWords, askedBy, answer, state, note, progress, id } = asked.data;
  return (
    <Page
      title={`What if: ${inWords}`}
      about={`Asked by ${askedBy}. Each visit in the half of the day in which it took place, with today’s people.`}
      actions={
        <ButtonLink to="/what-if" variant="default">
          Ask anew
        </ButtonLink>
      }
    >
      {state === 'asked' ? <Progress plan={{ id, progress }} /> : null}
      {note ? <Empty>{note}</Empty> : null}
      {answer ? (
        <p>
          {answer.of === 'these_weeks'
            ? 'The visits on the calendar of these weeks themselves.'
            : 'The visits of the same weeks of last year.'}
        </p>
      ) : null}
      {answer ? <Weeks weeks={answer.weeks} /> : null}
    </Page>
  );
}

const change = (before: number, after: number, say: (n: number) => string): string =>
  before === after ? say(after) : `${say(before)} → ${say(after)}`;
const columns: Column<Week>[] = [
  { key: 'week', head: 'Week from', cell: ({ monday }) => dayText(monday) },
  { key: 'visits', head: 'Visits', align: 'right', cell: ({ visits }) => visits },
  { key: 'placed', head: 'Of them placed', align: 'right', cell: ({ now, then }) => change(now.placed, then.placed, String) },
  { key: 'fit', head: 'Visits that would fit', align: 'right', cell: ({ now, then }) => change(now.fit, then.fit, String) },
  {
    key: 'driving',
    head: 'Driving, all together',
    align: 'right',
    cell: ({ now, then }) => change(now.driving, then.driving, minutesText),
  },
  {
    key: 'proof',
    head: 'Proof',
    cell: ({ now, then }) => {
      const open = now.unproven + then.unproven;
      return open === 0 ? 'every plan proven' : `${open} ${open === 1 ? 'plan' : 'plans'} not proven to be the best`;
    },
  },
];

function Weeks({ weeks }: { weeks: readonly Week[] }): ReactNode {
  const sum = (of: (week: Week) => number): number => weeks.reduce((total, week) => total + of(week), 0);
  const more = sum(({ now, then }) => then.fit - now.fit) / Math.max(1, weeks.length);
  const driving = sum(({ now, then }) => then.driving - now.driving) / Math.max(1, weeks.length);
  const fits = Math.abs(more) < 0.05 ? 'As many visits fit' : `${Math.abs(more).toFixed(1)} ${more > 0 ? 'more' : 'fewer'} visits fit`;
  const drives = Math.abs(driving) < 1 ? 'as much driving' : `${minutesText(Math.abs(driving))} ${driving > 0 ? 'more' : 'less'} driving`;
  return (
    <>
      <p>
        In a week: {fits}, and {drives} for the visits that there were. “Would fit” counts what is placed of twice the visits.
      </p>
      <DataTable caption="Week by week" columns={columns} rows={weeks} rowKey={({ monday }) => monday} />
    </>
  );
}
