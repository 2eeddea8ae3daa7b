// Pairs and people beside what their houses led to expect: a funnel, by name, no ranking.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { FunnelUnit, PeopleFigures, PeopleFunnel as Funnel } from '@backsight/contract/liability/people';
import { peopleFiguresQuery, peopleTable } from '../../api/frequency.ts';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { PeopleFunnel } from './PeopleFunnel.tsx';
import { SpanForm, type SpanChosen } from './SpanForm.tsx';
import { WhatItMeans } from './WhatItMeans.tsx';
import { TableFiles } from './TableFiles.tsx';

const address = getRouteApi('/shell/liabilities/people');

export function PeopleFiguresPage(): ReactNode {
  const { from, until } = address.useSearch();
  const navigate = address.useNavigate();
  const { data, error, isPending } = useQuery(peopleFiguresQuery({ from, until }));
  const change = (span: SpanChosen): void => void navigate({ search: (now) => ({ ...now, ...span }), replace: true, resetScroll: false });
  return (
    <Page
      title="Pairs and people"
      about="Callbacks beside what the houses led to expect. By name: nobody is ranked."
      actions={
        <>
          <TextLink to="/liabilities/frequency">How often callbacks come</TextLink> <TextLink to="/liabilities">Liabilities</TextLink>
        </>
      }
    >
      <SpanForm asked={{ from, until }} shown={data} onChange={change} />
      <Section title="Before you read it">
        <WhatItMeans />
      </Section>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && !error ? <Content data={data} span={{ from, until }} /> : null}
    </Page>
  );
}

const Content = ({ data, span }: { data: PeopleFigures; span: SpanChosen }): ReactNode => (
  <>
    <p>{`${data.compared} ${data.young}`}</p>
    <OneFunnel title="Pairs" unitName="Pair" funnel={data.pairs} table={peopleTable('pairs', span)} />
    <OneFunnel title="People" unitName="Person" funnel={data.people} table={peopleTable('people', span)} />
  </>
);

type Props = { title: string; unitName: string; funnel: Funnel; table: string };

function OneFunnel({ title, unitName, funnel, table }: Props): ReactNode {
  const shown = funnel.units.some(({ state }) => state === 'shown');
  const few = funnel.units.filter(({ state }) => state === 'too_few');
  return (
    <Section title={title} actions={<TableFiles csv={table} of={title} />}>
      {shown ? (
        <PeopleFunnel
          about={`${title}: callbacks over those to be expected.`}
          unitName={unitName}
          unitNames={title.toLowerCase()}
          units={funnel.units}
          bands={funnel.bands}
          sentence={funnel.sentence}
        />
      ) : (
        <Empty>{funnel.sentence}</Empty>
      )}
      {few.length > 0 ? (
        <details>
          <summary>{`Too few for ${few.length}: less than five callbacks to be expected`}</summary>
          <p>{few.map(withJobs).join('; ')}.</p>
        </details>
      ) : null}
    </Section>
  );
}

const withJobs = ({ name, jobs }: FunnelUnit): string => `${name}, ${jobs.toLocaleString('en-US')} ${jobs === 1 ? 'job' : 'jobs'}`;
