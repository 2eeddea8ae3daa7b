// The owner's page: what the firm owes, what waits, and what may still come, the most important numbers first.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { OwnerPage as Data } from '@backsight/contract/liability/owner';
import { ownerQuery } from '../../api/owner.ts';
import { useMe } from '../../api/people.ts';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { OwnerKeys } from './OwnerKeys.tsx';
import { OwnerMoney } from './OwnerMoney.tsx';
import { OwnerMonths } from './OwnerMonths.tsx';
import { OwnerOpen } from './OwnerOpen.tsx';
import { OwnerWaiting } from './OwnerWaiting.tsx';
import { OwnerWatch } from './OwnerWatch.tsx';
import classes from './Owner.module.css';

export function OwnerPage(): ReactNode {
  const { data, error, isPending } = useQuery(ownerQuery);
  return (
    <Page
      title="Liabilities"
      about="What callbacks cost and may still cost, counted from the ledger to the cent. Estimates say how they were made; none is an actuarial opinion."
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Content data={data} /> : null}
    </Page>
  );
}

const PAGES = [
  ['/liabilities/windows', 'Claim windows'],
  ['/liabilities/cash', 'Cash ahead'],
  ['/liabilities/development', 'Development'],
  ['/liabilities/frequency', 'How often callbacks come'],
  ['/liabilities/people', 'Pairs and people'],
  ['/liabilities/steps', 'Figures of the steps'],
  ['/liabilities/outlook', 'Outlook'],
  ['/liabilities/files', 'Reports and files'],
  ['/callback-answers', 'How clients say we handled it'],
] as const;

/** For the owner alone. */
const OWNERS: readonly string[] = ['/liabilities/outlook', '/liabilities/files', '/callback-answers'];

/** Where the numbers go on. */
function More(): ReactNode {
  const owner = useMe().roles.includes('owner');
  return (
    <ul className={classes.links} aria-label="More about liabilities">
      {PAGES.filter(([to]) => owner || !OWNERS.includes(to)).map(([to, name]) => (
        <li key={to}>
          <TextLink to={to}>{name}</TextLink>
        </li>
      ))}
    </ul>
  );
}

const Content = ({ data }: { data: Data }): ReactNode => (
  <>
    {data.leftOut ? <p>Files that the owner keeps to themselves are left out of every sum here.</p> : null}
    <OwnerKeys data={data} />
    <More />
    <OwnerWaiting data={data} />
    <OwnerMoney data={data} />
    <OwnerOpen data={data} />
    <OwnerWatch data={data} />
    <OwnerMonths months={data.months} />
  </>
);
