// What a change still to come would mean for the next two years: a planning estimate by seeded simulation, kept only on request.
import { useEffect, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import { outlookTables, type Outlook } from '@backsight/contract/liability/outlook';
import { outlookQuery, type OutlookAsked } from '../../api/outlook.ts';
import { tableAddress } from '../../api/tables.ts';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';
import { KeepOutlook, KeptOutlooks } from './KeptOutlooks.tsx';
import { OutlookFigures, OutlookQuarters } from './OutlookFigures.tsx';
import { OutlookForm } from './OutlookForm.tsx';
import { readOutlookSearch, type OutlookSearch } from './outlookSearch.ts';
import { TableFiles } from './TableFiles.tsx';

const route = getRouteApi('/shell/liabilities/outlook');
const MOST_SEED = 4_294_967_295;

export function OutlookPage(): ReactNode {
  const search = route.useSearch();
  const navigate = useNavigate();
  const { data, error, isPending, isPlaceholderData } = useQuery({
    ...outlookQuery(search as OutlookAsked),
    placeholderData: keepPreviousData,
    refetchOnWindowFocus: false,
  });
  const go = (to: OutlookSearch, replace = false) => void navigate({ to: '/liabilities/outlook', search: readOutlookSearch(to), replace });
  // From the first answer on the address holds what is needed to have it again.
  const fixed = search.asOf !== undefined && search.seed !== undefined;
  useEffect(() => {
    if (data && !isPlaceholderData && !fixed) go({ ...search, seed: String(data.seed), asOf: data.asOf }, true);
  });
  // What cannot be asked is told in the form; its choices then come from how things are.
  const asIs = useQuery({ ...outlookQuery({}), enabled: error !== null && !data, refetchOnWindowFocus: false });
  const choices = data ?? asIs.data;
  return (
    <Page
      title="Outlook"
      about="A planning estimate for the next two years of work. It compares changes still to come; whether a change in force helped stands with its step."
      actions={<TextLink to="/liabilities">Liabilities</TextLink>}
    >
      {isPending ? <Loading /> : null}
      {choices ? (
        <OutlookForm
          key={JSON.stringify({ ...search, seed: '', asOf: '' })}
          search={search}
          steps={choices.steps}
          policy={choices.policy}
          error={error}
          onAsk={(asked) => go({ ...asked, seed: search.seed })}
        />
      ) : (
        <ProblemNote of={error} />
      )}
      {data && !error ? <Answer data={data} onSeed={(seed) => go({ ...search, seed })} /> : null}
      <KeptOutlooks />
    </Page>
  );
}

/** Whether anything differs from how things are. */
const differs = ({
  feePercent,
  jobsPercent,
  capCents,
  deductibleCents,
  premiumCents,
  stepMinutes,
  fewerLeast,
  fewerMost,
}: Outlook['scenario']) =>
  [feePercent, jobsPercent, premiumCents, stepMinutes, fewerLeast, fewerMost].some((value) => value !== 0) ||
  capCents !== null ||
  deductibleCents !== null;

function Answer({ data, onSeed }: { data: Outlook; onSeed: (seed: string) => void }): ReactNode {
  const changed = differs(data.scenario);
  const files = (table: 'figures' | 'quarters', of: string): ReactNode =>
    data.figures.length > 0 ? (
      <TableFiles csv={tableAddress(outlookTables.read, table, { ...data.scenario, seed: data.seed, asOf: data.asOf })} of={of} />
    ) : null;
  return (
    <>
      <Section title="Planning estimate" actions={files('figures', 'planning estimate')}>
        {data.because.map((sentence) => (
          <p key={sentence}>
            <strong>{sentence}</strong>
          </p>
        ))}
        {data.cautions.map((sentence) => (
          <p key={sentence}>
            <strong>{sentence}</strong>
          </p>
        ))}
        {data.figures.length > 0 ? (
          <>
            <p>
              Jobs from <Day day={data.from} /> to <Day day={data.until} />. The mean of {data.runs.toLocaleString('en-US')} runs, and below
              it where 90 of 100 runs lie. {changed ? 'Both sides have the same luck, so that the difference is the change alone.' : ''} Not
              an actuarial opinion.
            </p>
            <OutlookFigures figures={data.figures} changed={changed} />
          </>
        ) : null}
      </Section>
      {data.quarters.length > 0 ? (
        <Section title="Hours of pairs by quarter" folds actions={files('quarters', 'hours of pairs by quarter')}>
          <OutlookQuarters quarters={data.quarters} changed={changed} />
        </Section>
      ) : null}
      {data.assumptions.length > 0 ? (
        <Section title="What is assumed" folds>
          <ul>
            {data.assumptions.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <Group align="center">
            <span>
              Seed {data.seed}, figures as known <When at={data.asOf} />. The address of this page gives the same again.
            </span>
            <Button size="compact-md" variant="default" onClick={() => onSeed(String(Math.floor(Math.random() * MOST_SEED)))}>
              Try another seed
            </Button>
          </Group>
        </Section>
      ) : null}
      {changed && data.figures.length > 0 ? <KeepOutlook key={`${data.asOf} ${JSON.stringify(data.scenario)}`} outlook={data} /> : null}
    </>
  );
}
