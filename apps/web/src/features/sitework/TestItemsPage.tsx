// Devices and samples of one job: what is out, since when, and the next step of each.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { TEST_STEPS, type TestItem, type TestItems } from '@backsight/contract/sitework/testItems';
import { testItemsQuery } from '../../api/desk.ts';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { PlaceTest } from './PlaceTest.tsx';
import { StepTest } from './StepTest.tsx';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/jobs/$jobId/tests');

export function TestItemsPage(): ReactNode {
  const { jobId } = route.useParams();
  const { data, error, isPending } = useQuery(testItemsQuery(jobId));
  return (
    <Page
      title="Devices and samples"
      width="narrow"
      about={data ? `Job ${data.jobNumber}` : undefined}
      actions={
        <ButtonLink to="/jobs/$jobId" params={{ jobId }} variant="default">
          Back to the job
        </ButtonLink>
      }
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Items tests={data} /> : null}
    </Page>
  );
}

function Items({ tests }: { tests: TestItems }): ReactNode {
  return (
    <>
      {tests.items.length === 0 ? <Empty>Nothing was placed or drawn for this job.</Empty> : null}
      <ul className={classes.cards}>
        {tests.items.map((item) => (
          <li key={item.id} className={classes.card}>
            <ItemCard item={item} />
            {tests.mayChange && item.next.length > 0 ? <StepTest key={item.steps.length} item={item} jobId={tests.jobId} /> : null}
          </li>
        ))}
      </ul>
      {tests.mayChange && tests.open ? <PlaceTest tests={tests} /> : null}
    </>
  );
}

function ItemCard({ item }: { item: TestItem }): ReactNode {
  const out = item.kind === 'device' && !item.steps.some(({ step }) => step === 'collected');
  return (
    <>
      <h2>
        {item.what}, {item.kind === 'device' ? 'serial number' : 'number'} {item.serial}
      </h2>
      <ul className={classes.plain}>
        {item.steps.map((step) => (
          <li key={step.step}>
            {item.kind === 'sample' && step.step === 'collected' ? 'drawn' : TEST_STEPS[step.step]} <When at={step.happenedAt} />, by{' '}
            {step.by}
            {step.closedSince ? (
              <>
                {' '}
                (house closed since <When at={step.closedSince} />)
              </>
            ) : null}
            {step.occupantTold ? ', occupant told' : ''}
            {step.moved ? ', found moved' : ''}
            {step.words ? `: ${step.words}` : ''}
          </li>
        ))}
      </ul>
      {out && item.collectFrom ? (
        <p>
          Collect from{' '}
          <strong>
            <When at={item.collectFrom} />
          </strong>{' '}
          on: {item.shortestHours} hours of test
          {item.testFrom ? (
            <>
              , which counts from <When at={item.testFrom} />
            </>
          ) : null}
          .
        </p>
      ) : null}
      {item.awaited && item.laboratoryBy && !item.steps.some(({ step }) => step === 'received') ? (
        <p>
          The laboratory must have it by{' '}
          <strong>
            <When at={item.laboratoryBy} />
          </strong>{' '}
          ({item.holdingHours} hours).
        </p>
      ) : null}
    </>
  );
}
