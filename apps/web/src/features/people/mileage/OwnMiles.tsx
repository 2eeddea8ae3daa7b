// One's own miles of the last two weeks.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { DateTime } from 'luxon';
import type { MileageDay } from '@backsight/contract/people/own';
import { mileageQuery } from '../../../api/own.ts';
import { useMe } from '../../../api/people.ts';
import { Empty } from '../../../ui/Empty.tsx';
import { Loading } from '../../../ui/Loading.tsx';
import { ProblemNote } from '../../../ui/ProblemNote.tsx';
import { Section } from '../../../ui/Section.tsx';
import { todayIn } from '../../../ui/time.ts';
import { EnterMiles } from './EnterMiles.tsx';
import { MileageTable } from './MileageTable.tsx';

const DAYS_BACK = 13;

export function OwnMiles(): ReactNode {
  const me = useMe();
  const today = todayIn(me.zone);
  const [chosen, setChosen] = useState<MileageDay | 'new' | null>(null);
  const from = DateTime.fromISO(today, { zone: 'utc' }).minus({ days: DAYS_BACK }).toFormat('yyyy-MM-dd');
  const list = useQuery(mileageQuery({ from, to: today, personId: me.id }));
  const close = () => setChosen(null);
  return (
    <Section
      title="Miles of the last two weeks"
      actions={
        chosen === null ? (
          <Button size="compact-md" variant="default" onClick={() => setChosen('new')}>
            Enter miles
          </Button>
        ) : undefined
      }
    >
      <ProblemNote of={list.error} />
      {list.isPending ? <Loading /> : null}
      {chosen !== null ? (
        <div style={{ marginBottom: 'var(--bs-space-6)' }}>
          <EnterMiles key={chosen === 'new' ? 'new' : chosen.day} personId={me.id} row={chosen === 'new' ? null : chosen} done={close} />
        </div>
      ) : null}
      {list.data?.days.length === 0 ? <Empty>No visit and no miles in these days.</Empty> : null}
      {list.data && list.data.days.length > 0 ? <MileageTable rows={list.data.days.toReversed()} choose={setChosen} /> : null}
    </Section>
  );
}
