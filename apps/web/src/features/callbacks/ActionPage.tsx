// One corrective action: why, what changes, the same elsewhere, whether it helped, its review and its history.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { ACTION_KINDS } from '@backsight/contract/callbacks';
import type { ActionPage as Action } from '@backsight/contract/callbacks/change';
import { actionQuery } from '../../api/correctiveActions.ts';
import { useMe } from '../../api/people.ts';
import { Details } from '../../ui/Details.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';
import { ActionEffect } from './ActionEffect.tsx';
import { ActionHistory } from './ActionHistory.tsx';
import { DraftRevision } from './DraftRevision.tsx';
import { Elsewhere } from './Elsewhere.tsx';
import { EndAction } from './EndAction.tsx';
import { OneOpen, useOneOpen } from './oneOpen.tsx';
import { PlanAction } from './PlanAction.tsx';
import { ReviewAction } from './ReviewAction.tsx';

const route = getRouteApi('/shell/corrective-actions/$actionId');

export function ActionPage(): ReactNode {
  const { actionId } = route.useParams();
  const { data, error, isPending } = useQuery(actionQuery(actionId));
  const judge = useMe().roles.some((role) => role === 'owner' || role === 'lead_inspector');
  return (
    <Page
      title={data ? `Corrective action ${data.number}` : 'Corrective action'}
      about={data?.title}
      actions={judge ? <TextLink to="/corrective-actions">Corrective actions</TextLink> : null}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <OneOpen>
          <Standing action={data} />
          {judge ? <Why action={data} /> : null}
          <Changes action={data} judge={judge} />
          {judge ? (
            <>
              <Elsewhere actionId={data.id} />
              <ActionEffect action={data} />
              <ReviewAction action={data} />
            </>
          ) : null}
          <ActionHistory events={data.events} />
        </OneOpen>
      ) : null}
    </Page>
  );
}

const stateOf = (a: Action): string =>
  a.state === 'open' ? (a.reopenedAt ? 'open again' : 'open') : a.state === 'done' ? 'done' : 'dropped';

function Standing({ action: a }: { action: Action }): ReactNode {
  return (
    <Details
      rows={[
        ['What', ACTION_KINDS[a.kind]],
        ['State', stateOf(a)],
        ['Who sees to it', a.owner],
        ...(a.kind === 'none' ? [] : ([['Due', <Day key="due" day={a.dueOn} />]] as const)),
        ['Counts from', a.changedAt ? <When key="from" at={a.changedAt} /> : 'nothing has changed yet'],
        [
          'Review',
          a.reviewOn ? (
            <span key="review">
              <Day day={a.reviewOn} /> by {a.reviewer}
            </span>
          ) : (
            'none planned'
          ),
        ],
      ]}
    />
  );
}

const Why = ({ action: a }: { action: Action }): ReactNode => (
  <Section title="Why">
    <p style={{ whiteSpace: 'pre-wrap' }}>{a.why}</p>
    <p>
      {a.callbacks!.length === 0 ? 'Because of callbacks that only the owner sees.' : 'Because of '}
      {a.callbacks!.map((c, at) => (
        <span key={c.id}>
          {at > 0 ? ', ' : ''}
          <TextLink to="/callbacks/$callbackId" params={{ callbackId: c.id }}>{`callback ${c.number}`}</TextLink>
        </span>
      ))}
    </p>
  </Section>
);

function Changes({ action: a, judge }: { action: Action; judge: boolean }): ReactNode {
  const [planning, plan] = useOneOpen('plan');
  const [ending, setEnding] = useState(false);
  return (
    <Section
      title="What changes"
      actions={
        judge && a.state !== 'dropped' && !planning ? (
          <Button variant="default" onClick={() => plan(true)}>
            Change the plan
          </Button>
        ) : null
      }
    >
      <Change action={a} />
      {judge &&
      a.kind === 'revision' &&
      a.state === 'open' &&
      (a.revisionId === null || a.revisionState === 'withdrawn' || a.reopenedAt) ? (
        <DraftRevision action={a} tracedTo={a.procedureId} system="" />
      ) : null}
      {planning ? <PlanAction action={a} onDone={() => plan(false)} /> : null}
      {a.state === 'open' && !ending ? (
        <Button variant="default" mt="sm" onClick={() => setEnding(true)}>
          Done, or dropped
        </Button>
      ) : null}
      {a.state === 'open' && ending ? <EndAction action={a} onDone={() => setEnding(false)} /> : null}
    </Section>
  );
}

function Change({ action: a }: { action: Action }): ReactNode {
  if (a.kind === 'none') return <p>Nothing is changed. The reason stands under "Why".</p>;
  if (a.kind !== 'revision') return <p>{a.title}</p>;
  if (!a.revisionId) return <p>No revision is linked yet.</p>;
  return (
    <p>
      <TextLink
        to="/procedures/revision/$revisionId"
        params={{ revisionId: a.revisionId }}
      >{`${a.procedureTitle}, revision ${a.revisionNumber}`}</TextLink>
      {a.inForceFrom ? (
        <>
          , in force from <When at={a.inForceFrom} />
        </>
      ) : (
        `, ${a.revisionState}: this action is done when it is in force`
      )}
    </p>
  );
}
