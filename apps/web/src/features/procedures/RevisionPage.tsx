// One revision: what is different in it, who has acknowledged it, and for leads what can be done with it.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { RevisionPage as Revision } from '@backsight/contract/procedures';
import { useMe } from '../../api/people.ts';
import { acknowledgementsQuery, comparisonQuery, paperAddress, revisionQuery, tableAddress } from '../../api/procedures.ts';
import { Details } from '../../ui/Details.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { ComesFrom } from './ComesFrom.tsx';
import { Differences } from './Differences.tsx';
import { Pauses } from './Pauses.tsx';
import { RevisionActs } from './RevisionActs.tsx';
import { StepDocument } from './StepDocument.tsx';
import { mayRevise, standing } from './words.ts';

const route = getRouteApi('/shell/procedures/revision/$revisionId');

export function RevisionPage(): ReactNode {
  const { revisionId } = route.useParams();
  const me = useMe();
  const { data, error, isPending } = useQuery(revisionQuery(revisionId));
  return (
    <Page
      title={data ? `${data.procedure.title}, revision ${data.number}` : 'Revision'}
      about={data?.reason}
      actions={<Papers id={revisionId} />}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? (
        <>
          <Details rows={rowsOf(data)} />
          {mayRevise(me.roles) ? <RevisionActs revision={data} /> : null}
          {mayRevise(me.roles) ? <ComesFrom revisionId={revisionId} /> : null}
          {mayRevise(me.roles) && data.state !== 'draft' ? (
            <p>
              <TextLink to="/callbacks" search={{ which: 'all', revision: revisionId }}>
                Callbacks traced to steps of this revision
              </TextLink>
            </p>
          ) : null}
          <Section title="What is different">
            <Compared id={revisionId} />
          </Section>
          {data.state === 'approved' && data.asks ? (
            <Section title="Acknowledgements">
              <WhoIsMissing id={revisionId} />
            </Section>
          ) : null}
          {data.questions && data.questions.length > 0 ? <Questions of={data} /> : null}
          {mayRevise(me.roles) && !data.retires ? (
            <Section title="Pages and pauses, as the pair gets them">
              <Pauses procedure={{ ...data.procedure, steps: data.steps.map(({ step }) => step) }} />
            </Section>
          ) : null}
          <Section title="All steps of this revision">
            {data.steps.map((one, at) => (
              <StepDocument key={one.step.key} of={one} number={at + 1} traced />
            ))}
          </Section>
        </>
      ) : null}
    </Page>
  );
}

const Papers = ({ id }: { id: string }): ReactNode => (
  <>
    <a href={paperAddress(id)}>Print (PDF)</a>
    <a href={tableAddress(id)} download>
      Steps as a table (CSV)
    </a>
  </>
);

const rowsOf = (data: Revision): (readonly [string, ReactNode])[] => [
  [
    'Procedure',
    <TextLink key="p" to="/procedures/$procedureId" params={{ procedureId: data.procedureId }}>
      {data.procedure.title}
    </TextLink>,
  ],
  ['State', standing(data, data.inForce)],
  ['Written by', data.author],
  ...(data.retires ? [['It ends', 'the procedure: retired'] as const] : []),
  ...(data.approver ? [['Approved by', data.approver] as const] : []),
  ...(data.inForceFrom ? [['In force from', <When key="f" at={data.inForceFrom} />] as const] : []),
  ...(data.inForceUntil ? [['In force until', <When key="u" at={data.inForceUntil} />] as const] : []),
  ...(data.acknowledgeBy && data.asks ? [['Acknowledge by', <When key="a" at={data.acknowledgeBy} />] as const] : []),
  ...(data.graceReason ? [['Why so soon', data.graceReason] as const] : []),
];

function Compared({ id }: { id: string }): ReactNode {
  const { data, error, isPending } = useQuery(comparisonQuery(id));
  if (isPending) return <Loading />;
  return data ? <Differences of={data} /> : <ProblemNote of={error} />;
}

/** For those who draft and approve: the questions with their right answers. */
function Questions({ of }: { of: Revision }): ReactNode {
  return (
    <Section title="Questions that come with it">
      <ol>
        {of.questions?.map(({ key, text, stepKey, options, right }) => (
          <li key={key}>
            {text} <strong>{options.find((one) => one.key === right)?.label ?? ''}</strong> (not:{' '}
            {options
              .filter((one) => one.key !== right)
              .map(({ label }) => label)
              .join('; ')}
            ), at the step "{of.steps.find(({ step }) => step.key === stepKey)?.step.title ?? stepKey}"
          </li>
        ))}
      </ol>
    </Section>
  );
}

function WhoIsMissing({ id }: { id: string }): ReactNode {
  const { data, error, isPending } = useQuery(acknowledgementsQuery(id));
  if (isPending) return <Loading />;
  if (!data) return <ProblemNote of={error} />;
  const missing = data.people.filter(({ happenedAt }) => happenedAt === null);
  return (
    <>
      <p>
        <strong>
          {missing.length === 0 ? 'Everybody has acknowledged it.' : `Not yet: ${missing.map(({ name }) => name).join(', ')}.`}
        </strong>
      </p>
      <ul>
        {data.people.map(({ personId, name, happenedAt, where, wrong, rounds }) =>
          happenedAt ? (
            <li key={personId}>
              {name}: <When at={happenedAt} />
              {where === 'at_the_start' ? ', at the start of a visit' : ''}
              {rounds ? `, questions in ${rounds === 1 ? 'one round' : `${rounds} rounds`}, ${wrong} wrong` : ''}
            </li>
          ) : null,
        )}
      </ul>
    </>
  );
}
