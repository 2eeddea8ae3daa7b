// How often callbacks come: what calls for a look first, then by month or by one kind of group, as the address says.
import type { ReactNode } from 'react';
import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { COMPARED, GROUP_WORDS, type Frequency } from '@backsight/contract/liability/frequency';
import { frequencyQuery, type FrequencySearch } from '../../api/frequency.ts';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { FrequencyMonths } from './FrequencyMonths.tsx';
import { FrequencySignals } from './FrequencySignals.tsx';
import { GroupFigures } from './GroupFigures.tsx';
import { SpanForm } from './SpanForm.tsx';

const address = getRouteApi('/shell/liabilities/frequency');

export function FrequencyPage(): ReactNode {
  const { by = 'month', ...span } = address.useSearch();
  const navigate = address.useNavigate();
  const { data, error, isPending } = useQuery(frequencyQuery({ ...span, by }));
  const change = (more: FrequencySearch): void =>
    void navigate({ search: (now) => ({ ...now, ...more }), replace: true, resetScroll: false });
  return (
    <Page
      title="How often callbacks come"
      about="Counted by the month in which the house was inspected. Questions, near-misses and duplicates do not count."
      actions={
        <>
          <TextLink to="/liabilities/people">Pairs and people</TextLink> <TextLink to="/liabilities/steps">Steps</TextLink>{' '}
          <TextLink to="/liabilities">Liabilities</TextLink>
        </>
      }
    >
      <SpanForm asked={span} shown={data} onChange={change}>
        <NativeSelect
          label="Look by"
          value={by}
          data={[
            { value: 'month', label: 'Month of inspection' },
            ...COMPARED.map((one) => ({ value: one, label: GROUP_WORDS[one].title })),
          ]}
          onChange={(event) => change({ by: event.currentTarget.value as FrequencySearch['by'] })}
        />
      </SpanForm>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && !error ? <Content data={data} search={{ ...span, by }} /> : null}
    </Page>
  );
}

function Content({ data, search: { by, ...span } }: { data: Frequency; search: FrequencySearch }): ReactNode {
  return (
    <>
      <FrequencySignals data={data} span={span} />
      {by === 'month' ? <FrequencyMonths data={data} span={span} /> : <GroupFigures data={data} span={span} />}
    </>
  );
}
