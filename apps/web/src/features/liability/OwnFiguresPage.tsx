// One's own callbacks beside what one's houses led to expect, with what that can and cannot tell. Nobody else's figure is here.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { OwnFigures } from '@backsight/contract/liability/people';
import { ownFiguresQuery } from '../../api/frequency.ts';
import { useMe } from '../../api/people.ts';
import { Empty } from '../../ui/Empty.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { PeopleFunnel } from './PeopleFunnel.tsx';
import { SpanForm, type SpanChosen } from './SpanForm.tsx';
import { WhatItMeans } from './WhatItMeans.tsx';

const address = getRouteApi('/shell/my-figures');

export function OwnFiguresPage(): ReactNode {
  const { from, until } = address.useSearch();
  const navigate = address.useNavigate();
  const { roles } = useMe();
  const inspects = roles.some((role) => role === 'inspector' || role === 'lead_inspector');
  const { data, error, isPending } = useQuery({ ...ownFiguresQuery({ from, until }), enabled: inspects });
  const change = (span: SpanChosen): void => void navigate({ search: (now) => ({ ...now, ...span }), replace: true, resetScroll: false });
  if (!inspects) return <NobodysFigures owner={roles.includes('owner')} />;
  return (
    <Page
      title="My figures"
      about="Callbacks of your jobs beside what your houses led to expect. Here only you see yours; owner and lead inspector see it too."
    >
      <SpanForm asked={{ from, until }} shown={data} onChange={change} />
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && !error ? <Own data={data} /> : null}
      <Section title="What this can and cannot tell">
        <WhatItMeans />
        <p>
          If it weighs on you, or you think a callback is counted wrongly, say so: the lead inspector can show you each case, and your
          account of it is part of the file.
        </p>
      </Section>
    </Page>
  );
}

/** Who inspects no houses has no figure here; an owner reads those of everybody elsewhere. */
function NobodysFigures({ owner }: { owner: boolean }): ReactNode {
  return (
    <Page title="My figures" about="Callbacks of the jobs that one inspected, beside what the houses led to expect.">
      <Empty
        action={
          owner ? (
            <TextLink to="/liabilities/people">Pairs and people against what was expected</TextLink>
          ) : (
            <TextLink to="/">Home</TextLink>
          )
        }
      >
        You inspect no houses yourself, so there is no figure of yours.
      </Empty>
    </Page>
  );
}

function Own({ data: { own, bands, sentence, compared, young } }: { data: OwnFigures }): ReactNode {
  if (!('state' in own)) return <Empty>{own.sentence}</Empty>;
  if (own.state === 'too_few')
    return (
      <Empty>{`Too few: on your ${own.jobs.toLocaleString('en-US')} ${own.jobs === 1 ? 'job' : 'jobs'} fewer than five callbacks were to be expected, so nothing can be said.`}</Empty>
    );
  return (
    <Section title="You">
      <p>
        {`${own.observed} ${own.observed === 1 ? 'callback' : 'callbacks'} on ${own.jobs.toLocaleString('en-US')} jobs; ${own.expected.toFixed(1)} were to be expected from the houses. ${young}`}
      </p>
      <PeopleFunnel
        about="Your callbacks over those to be expected."
        unitName="Person"
        unitNames="people"
        units={[own]}
        bands={bands}
        sentence={`${sentence} ${compared}`}
        named
      />
    </Section>
  );
}
