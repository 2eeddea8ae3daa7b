// Changes a draft: the order of its steps, each step in a form, and the reason. It is saved as a whole.
import { useState, type ReactNode } from 'react';
import { Button, Group, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { RevisionPage } from '@backsight/contract/procedures';
import type { Step } from '@backsight/domain/procedures/step';
import { keyFor } from '@backsight/domain/shared/keyFor';
import { asProblem } from '../../api/problemError.ts';
import { changeDraft, revisionQuery } from '../../api/procedures.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';
import { blankStep, replacedAt, shifted } from './drafting.ts';
import { Pauses } from './Pauses.tsx';
import { QuestionsEditor, type Question } from './QuestionsEditor.tsx';
import { StepEditor } from './StepEditor.tsx';
import classes from './procedures.module.css';

const route = getRouteApi('/shell/procedures/draft/$revisionId');

export function DraftPage(): ReactNode {
  const { revisionId } = route.useParams();
  const { data, error, isPending } = useQuery({ ...revisionQuery(revisionId), refetchOnWindowFocus: false });
  return (
    <Page
      title={data ? `Draft of ${data.procedure.title}, revision ${data.number}` : 'Draft'}
      about="Nothing here counts until somebody else has approved it."
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && data.state !== 'draft' ? <p>This revision is no draft any more.</p> : null}
      {data?.state === 'draft' ? <Editor key={data.id} revision={data} /> : null}
    </Page>
  );
}

type Typed = { reason: string; steps: Step[]; questions: Question[] };

function Editor({ revision }: { revision: RevisionPage }): ReactNode {
  const [version, setVersion] = useState(revision.version);
  const { values, setValues, draft } = useDraft<Typed>(
    { reason: revision.reason, steps: revision.steps.map(({ step }) => step), questions: revision.questions ?? [] },
    'revision',
  );
  const { reason, steps, questions } = values;
  const set = (change: Partial<Typed>) => setValues((before) => ({ ...before, ...change }));
  const save = useSend(changeDraft, { refresh: ['procedures'], said: 'The draft was saved.', then: (reply) => setVersion(reply.version) });
  const atFault = /^steps\.(\d+)/.exec(asProblem(save.error)?.fields[0]?.field ?? asProblem(save.error)?.problem.field ?? '');
  const faulty = atFault ? save.variables?.steps[Number(atFault[1])] : undefined; // as sent: the list may have been moved since
  return (
    <>
      <Kept draft={draft} />
      <Textarea
        label="Reason"
        description="Every inspector reads this: no client, address or amount."
        autosize
        minRows={2}
        maw={640}
        value={reason}
        onChange={(event) => set({ reason: event.currentTarget.value })}
      />
      {revision.newestId !== revision.basedOnId ? (
        <p>
          <strong>Another revision was approved meanwhile.</strong> What you save is compared with that one: look at the comparison before
          it is approved.
        </p>
      ) : null}
      {revision.retires ? (
        <p>This revision retires the procedure: it holds no steps.</p>
      ) : (
        <>
          <h2>Steps</h2>
          <StepList steps={steps} revision={revision} onChange={(changed) => set({ steps: changed })} />
          <h2>Pages and pauses, as the pair gets them</h2>
          <Pauses procedure={{ ...revision.procedure, steps }} onChange={(changed) => set({ steps: changed })} />
          <h2>Questions to the reader</h2>
          <QuestionsEditor questions={questions} steps={steps} onChange={(changed) => set({ questions: changed })} />
        </>
      )}
      <ProblemNote of={save.error}>{faulty ? <p>At step "{faulty.title}".</p> : null}</ProblemNote>
      <Group mt="lg">
        <Button
          loading={save.isPending}
          onClick={() => whileSending(draft, () => save.mutate({ id: revision.id, version, basedOnId: revision.newestId, ...values }))}
        >
          Save the draft
        </Button>
        <ButtonLink to="/procedures/revision/$revisionId" params={{ revisionId: revision.id }} variant="default">
          Look at the comparison
        </ButtonLink>
        {revision.retires ? null : (
          <ButtonLink to="/procedures/table/$revisionId" params={{ revisionId: revision.id }} variant="default">
            Take steps in from a table
          </ButtonLink>
        )}
      </Group>
    </>
  );
}

type ListProps = { steps: Step[]; revision: RevisionPage; onChange: (steps: Step[]) => void };

function StepList({ steps, revision, onChange }: ListProps): ReactNode {
  const [open, setOpen] = useState<string | null>(null);
  const known = revision.stepTitles;
  const taken = [...Object.keys(known), ...steps.map(({ key }) => key)];
  const add = () => {
    const key = keyFor(`${revision.procedure.key} step`, taken);
    onChange([...steps, blankStep(key)]);
    setOpen(key);
  };
  const replace = (at: number) => {
    const next = replacedAt(steps, at, taken);
    onChange(next);
    setOpen(next[at]!.key);
  };
  return (
    <>
      {steps.map((step, at) => (
        <div key={step.key}>
          <div className={classes.row}>
            <span>
              {at + 1}. {step.title}
            </span>
            <Button
              variant="default"
              size="compact-sm"
              disabled={at === 0}
              aria-label={`Move up: ${step.title}`}
              onClick={() => onChange(shifted(steps, at, -1))}
            >
              Up
            </Button>
            <Button
              variant="default"
              size="compact-sm"
              disabled={at === steps.length - 1}
              aria-label={`Move down: ${step.title}`}
              onClick={() => onChange(shifted(steps, at, 1))}
            >
              Down
            </Button>
            <Button
              variant="default"
              size="compact-sm"
              aria-expanded={open === step.key}
              aria-label={`${open === step.key ? 'Close' : 'Edit'}: ${step.title}`}
              onClick={() => setOpen(open === step.key ? null : step.key)}
            >
              {open === step.key ? 'Close' : 'Edit'}
            </Button>
            <Button
              variant="default"
              size="compact-sm"
              aria-label={`Remove: ${step.title}`}
              onClick={() => onChange(steps.filter((one) => one !== step))}
            >
              Remove
            </Button>
          </div>
          {open === step.key ? (
            <StepEditor
              step={step}
              fixed={step.key in known}
              system={revision.procedure.system}
              services={revision.serviceNames}
              names={{ kit: revision.kitNames, qualifications: revision.qualificationNames }}
              titles={{ ...known, ...Object.fromEntries(steps.map((one) => [one.key, one.title])) }}
              onChange={(next) => onChange(steps.map((one) => (one === step ? next : one)))}
              onReplace={() => replace(at)}
            />
          ) : null}
        </div>
      ))}
      <Button variant="default" mt="md" onClick={add}>
        Add a step
      </Button>
    </>
  );
}
