// Development: what was known of the inspections of each period as they ripened, and what each is likely to end with.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { Development } from '@backsight/contract/liability/development';
import { developmentTables } from '@backsight/contract/liability/developmentTables';
import { developmentQuery, type DevelopmentSearch } from '../../api/development.ts';
import { tableAddress } from '../../api/tables.ts';
import { Details } from '../../ui/Details.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day } from '../../ui/When.tsx';
import { DevelopmentChart } from './DevelopmentChart.tsx';
import { DevelopmentEnds, DevelopmentFactors } from './DevelopmentEnds.tsx';
import { DevelopmentForm } from './DevelopmentForm.tsx';
import { DevelopmentTriangle } from './DevelopmentTriangle.tsx';
import { amount, COUNTED } from './developmentWords.ts';
import { TableFiles } from './TableFiles.tsx';

const address = getRouteApi('/shell/liabilities/development');

export function DevelopmentPage(): ReactNode {
  const search = address.useSearch();
  const navigate = address.useNavigate();
  const { data, error, isPending } = useQuery(developmentQuery(search));
  const change = (more: DevelopmentSearch): void =>
    void navigate({ search: (now) => ({ ...now, ...more }), replace: true, resetScroll: false });
  return (
    <Page
      title="Development"
      about="What was known of the inspections of each period as they ripened, and what each is likely to end with. A planning estimate, not an actuarial opinion."
      actions={
        <>
          <TextLink to="/liabilities/frequency">How often</TextLink> <TextLink to="/liabilities">Liabilities</TextLink>
        </>
      }
    >
      <DevelopmentForm asked={search} shown={data} onChange={change} />
      <ProblemNote of={error}>
        {search.asOf ? (
          <TextLink to="/liabilities/development" search={{ ...search, asOf: undefined }}>
            As known today
          </TextLink>
        ) : null}
      </ProblemNote>
      {isPending ? <Loading /> : null}
      {data && !error ? <Content data={data} search={search} /> : null}
    </Page>
  );
}

function Content({ data, search }: { data: Development; search: DevelopmentSearch }): ReactNode {
  const { estimate, by, asOf, today, origins } = data;
  const longer = estimate.longer;
  return (
    <>
      {asOf === today ? null : (
        <p role="status">
          Shown as it was known at the end of <Day day={asOf} />.{' '}
          <TextLink to="/liabilities/development" search={{ ...search, asOf: undefined }}>
            As known today
          </TextLink>
        </p>
      )}
      <Section title="What is still to come">
        {estimate.ok ? <Totals data={data} totals={estimate.totals} /> : <Empty>{estimate.sentence}</Empty>}
        {longer ? (
          <p>
            {longer.sentence}{' '}
            <TextLink to="/liabilities/development" search={{ ...search, by: longer.to }}>
              {`By ${longer.to}`}
            </TextLink>
          </p>
        ) : null}
        {estimate.ok ? (
          <details>
            <summary>How this was estimated</summary>
            <ul>
              {estimate.because.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </details>
        ) : null}
        <p>
          <strong>Expected cost still to come for work already done: </strong>
          {data.outstanding.sentence}
        </p>
      </Section>
      {origins.length === 0 ? null : (
        <>
          <Section
            title={`${COUNTED[data.of]}, by ${by} of inspection and age`}
            actions={<TableFiles csv={tableAddress(developmentTables.page, 'triangle', search)} of="triangle and ends" />}
          >
            <DevelopmentTriangle data={data} />
          </Section>
          <DevelopmentChart data={data} />
          {estimate.ok ? (
            <>
              <DevelopmentEnds data={data} files={tableAddress(developmentTables.page, 'triangle', search)} />
              <DevelopmentFactors
                by={by}
                factors={estimate.factors}
                told={estimate.factorErrors === null}
                files={tableAddress(developmentTables.page, 'factors', search)}
              />
            </>
          ) : null}
        </>
      )}
    </>
  );
}

type Estimated = Extract<Development['estimate'], { ok: true }>;

function Totals({ data: { of }, totals }: { data: Development; totals: Estimated['totals'] }): ReactNode {
  const { latest, ultimate, unreported, standardError, range } = totals;
  const say = (value: number): ReactNode => <span className="numbers">{amount(of, value)}</span>;
  return (
    <Details
      rows={[
        ['Known', say(latest)],
        ['Likely at the end', say(ultimate)],
        ['Still to come', <strong key="to-come">{say(unreported)}</strong>],
        ['Standard error', standardError === null ? 'cannot be told' : say(standardError)],
        ...(range ? [['In about 3 of 4 such cases', `${amount(of, range.lower)} to ${amount(of, range.upper)}`] as const] : []),
      ]}
    />
  );
}
