// The whole evidence of a callback on one page, in the order of the story: what was said, who went and under what, what was recorded beside what was reported, the papers, and what was like it before.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { KINDS, SPEAKERS, STATES, type Callback } from '@backsight/contract/callbacks';
import { callbackQuery, evidenceQuery } from '../../api/callbacks.ts';
import { backgroundQuery, factsAddress } from '../../api/opinions.ts';
import { Contacts } from '../../ui/contacts/Contacts.tsx';
import { Details } from '../../ui/Details.tsx';
import { Hold } from '../../ui/hold/Hold.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';
import { Conclude } from './Conclude.tsx';
import { Earlier } from './Earlier.tsx';
import { Evidence } from './Evidence.tsx';
import { OneOpen } from './oneOpen.tsx';
import { PairThen } from './PairThen.tsx';
import { Terms } from './Terms.tsx';
import { SYSTEMS } from './words.ts';

const route = getRouteApi('/shell/callbacks/$callbackId/evidence');

export function EvidencePage(): ReactNode {
  const { callbackId } = route.useParams();
  const callback = useQuery(callbackQuery(callbackId));
  const around = useQuery(backgroundQuery(callbackId));
  const evidence = useQuery(evidenceQuery(callbackId));
  const error = callback.error ?? around.error ?? evidence.error;
  if (!callback.data || !around.data || !evidence.data)
    return (
      <Page title="Evidence">
        <ProblemNote of={error} />
        {error ? null : <Loading />}
      </Page>
    );
  const one = callback.data;
  return (
    <Page
      title={`Callback ${one.number}: the evidence`}
      about="Facts, in the order in which they happened. Opinions stand on the page of the callback and in the conclusion at the end."
      actions={
        <>
          <TextLink to="/callbacks/$callbackId" params={{ callbackId }}>
            Back to the callback
          </TextLink>
          <a href={factsAddress(callbackId)}>Facts on paper (PDF)</a>
        </>
      }
    >
      <SaidThen callback={one} />
      <PairThen around={around.data} />
      <Evidence callback={one} whole />
      <Terms around={around.data} evidence={evidence.data} />
      <Written mails={around.data.mails} supplements={around.data.supplements} />
      <Contacts jobId={one.job.id} callbackId={one.id} />
      <Earlier callback={one} around={around.data} steps={evidence.data.steps} />
      <Hold jobId={one.job.id} />
      {one.kind === 'question' ? null : (
        <OneOpen>
          <Conclude callback={one} />
        </OneOpen>
      )}
    </Page>
  );
}

const SaidThen = ({ callback: c }: { callback: Callback }): ReactNode => (
  <Section title="What was said">
    <p style={{ whiteSpace: 'pre-wrap' }}>{c.words}</p>
    <Details
      rows={[
        ['Who speaks', `${SPEAKERS[c.speaker]}${c.party ? `: ${c.party.name}` : ''}`],
        ['What it is', `${KINDS[c.kind]}, ${STATES[c.state]}`],
        [
          'Where',
          <span key="where">
            {`${c.job.address}, ${c.job.town}: ${[(SYSTEMS as Record<string, string>)[c.system] ?? c.system, c.place].filter(Boolean).join(', ')} `}
            <TextLink to="/jobs/$jobId" params={{ jobId: c.job.id }}>{`job ${c.job.number}`}</TextLink>
          </span>,
        ],
        ['Inspected', c.job.inspectedOn ? <Day day={c.job.inspectedOn} /> : 'not yet'],
        ['Noticed on', c.discoveredOn ? <Day day={c.discoveredOn} /> : 'not said'],
        ['Received', <When key="received" at={c.receivedAt} />],
      ]}
    />
  </Section>
);

type Written = {
  mails: readonly { at: string; to: string; subject: string; state: string; body: string }[];
  supplements: readonly { id: string; words: string; by: string; at: string }[];
};

/** What was added after the seal, and every mail about the job word for word, the earlier ones too. */
const Written = ({ mails, supplements }: Written): ReactNode => (
  <Section title="Supplements and mails">
    {supplements.map((one) => (
      <p key={one.id}>
        {`Supplement to the record, ${one.by}, `}
        <When at={one.at} />
        {`: ${one.words}`}
      </p>
    ))}
    {mails.length === 0 ? <p>No mail went out.</p> : null}
    {mails.map((mail, at) => (
      <details key={`${mail.at} ${at}`}>
        <summary>
          {mail.subject}, to {mail.to}, <When at={mail.at} /> ({mail.state.replaceAll('_', ' ')})
        </summary>
        <p style={{ whiteSpace: 'pre-wrap' }}>{mail.body}</p>
      </details>
    ))}
  </Section>
);
