// What a lead or owner can do with a revision: change, discard or approve a draft, take back one that is not in force yet.
import { useState, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import type { RevisionPage } from '@backsight/contract/procedures';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { discardDraft, impactQuery, withdrawRevision } from '../../api/procedures.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { ApproveDialog } from './ApproveDialog.tsx';

type Props = { revision: RevisionPage };

export function RevisionActs({ revision }: Props): ReactNode {
  if (revision.state === 'draft') return <DraftActs revision={revision} />;
  const toCome = revision.state === 'approved' && revision.inForceFrom !== null && new Date(revision.inForceFrom) > new Date();
  return toCome ? <Withdraw revision={revision} /> : null;
}

function DraftActs({ revision }: Props): ReactNode {
  const me = useMe();
  const navigate = useNavigate();
  const [asked, setAsked] = useState<'approve' | 'discard' | null>(null);
  const discard = useSend(discardDraft, {
    refresh: ['procedures'],
    said: 'The draft was discarded.',
    then: () => void navigate({ to: '/procedures/$procedureId', params: { procedureId: revision.procedureId } }),
  });
  const own = me.id === revision.authorId;
  return (
    <Section title="This draft">
      {revision.problems.length > 0 ? (
        <>
          <p>Before it can be approved:</p>
          <ul>
            {revision.problems.map((problem) => (
              <li key={problem}>{problem}</li>
            ))}
          </ul>
        </>
      ) : null}
      {revision.newestId !== revision.basedOnId ? (
        <p>
          <strong>Another revision was approved meanwhile.</strong> Open the draft, compare and save it again.
        </p>
      ) : null}
      <Impact id={revision.id} />
      {own ? <p>You wrote this: somebody else approves it.</p> : null}
      <Group>
        <ButtonLink to="/procedures/draft/$revisionId" params={{ revisionId: revision.id }}>
          Change the draft
        </ButtonLink>
        {own ? null : (
          <Button variant="default" onClick={() => setAsked('approve')}>
            Approve ...
          </Button>
        )}
        <Button variant="default" onClick={() => setAsked('discard')}>
          Discard ...
        </Button>
      </Group>
      {asked === 'approve' ? <ApproveDialog revision={revision} onClose={() => setAsked(null)} /> : null}
      <ConfirmDialog
        opened={asked === 'discard'}
        title="Discard this draft?"
        act="Discard the draft"
        busy={discard.isPending}
        error={discard.error}
        onConfirm={() => discard.mutate({ id: revision.id, version: revision.version })}
        onClose={() => setAsked(null)}
      >
        <p>Its changes are lost. The keys of its new steps stay taken.</p>
      </ConfirmDialog>
    </Section>
  );
}

function Impact({ id }: { id: string }): ReactNode {
  const { data, error, isPending } = useQuery(impactQuery(id));
  if (isPending) return <Loading />;
  if (!data) return <ProblemNote of={error} />;
  const { jobs, jobsTouched, minutesPerJob, inputsPerJob, inspectors, steps, uncovered } = data;
  const minutes =
    minutesPerJob === null
      ? ''
      : ` On average ${Math.abs(minutesPerJob)} planned minutes ${minutesPerJob < 0 ? 'less' : 'more'} for each job.`;
  const inputs =
    inputsPerJob === null || inputsPerJob === 0
      ? ''
      : ` ${Math.abs(inputsPerJob)} ${inputsPerJob < 0 ? 'fewer' : 'more'} inputs for each of the pair.`;
  return (
    <>
      <p>
        {jobs === 0
          ? 'There were no inspections in the last 365 days to compare with.'
          : `Its new and changed steps would have applied on ${jobsTouched} of ${jobs} inspections of the last 365 days.${minutes}${inputs}`}{' '}
        {inspectors} inspectors will have to acknowledge it.
      </p>
      {uncovered.length > 0 ? (
        <>
          <p>
            <strong>With it these duties of the published rule have no step any more:</strong>
          </p>
          <ul>
            {uncovered.map((duty) => (
              <li key={duty}>{duty}</li>
            ))}
          </ul>
        </>
      ) : null}
      {jobs > 0 && steps.length > 0 ? (
        <ul>
          {steps.map((step) => (
            <li key={step.key}>
              {step.title}: {step.jobs} of {jobs}
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
}

function Withdraw({ revision }: Props): ReactNode {
  const [key] = useState(newId);
  const [asked, setAsked] = useState(false);
  const withdraw = useSend(withdrawRevision, { refresh: ['procedures'], said: 'The revision was withdrawn.', then: () => setAsked(false) });
  return (
    <>
      <Button variant="default" mt="md" onClick={() => setAsked(true)}>
        Withdraw ...
      </Button>
      <ConfirmDialog
        opened={asked}
        title="Withdraw this revision?"
        act="Withdraw the revision"
        busy={withdraw.isPending}
        error={withdraw.error}
        onConfirm={() => withdraw.mutate({ id: revision.id, key })}
        onClose={() => setAsked(false)}
      >
        <p>It will not come into force. The revision before it stays in force.</p>
      </ConfirmDialog>
    </>
  );
}
