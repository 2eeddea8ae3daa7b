// Changes a draft of an agreement text as a whole, with a look at how it reads for a job.
import { useState, type ReactNode } from 'react';
import { Button, Group, Textarea, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { Clause, TextPage as Text } from '@backsight/contract/agreementTexts';
import { changeText, textQuery } from '../../api/agreementTexts.ts';
import { asProblem } from '../../api/problemError.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useSend } from '../../ui/useSend.ts';
import { ClauseList } from './ClauseList.tsx';
import { LimitsEditor } from './LimitsEditor.tsx';
import { Preview } from './Preview.tsx';

const route = getRouteApi('/shell/agreement-texts/$textId/draft');

export function DraftPage(): ReactNode {
  const { textId } = route.useParams();
  const { data, error, isPending } = useQuery({ ...textQuery(textId), refetchOnWindowFocus: false });
  return (
    <Page title={data ? `Draft of text ${data.number}` : 'Draft'} about="Nothing here counts until somebody else has approved it.">
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data && data.state !== 'draft' ? <p>This text is no draft any more.</p> : null}
      {data?.state === 'draft' ? <Editor key={data.id} text={data} /> : null}
    </Page>
  );
}

function Editor({ text }: { text: Text }): ReactNode {
  const [version, setVersion] = useState(text.version);
  const {
    values: draft,
    setValues,
    draft: typed,
  } = useDraft(
    {
      title: text.title,
      reason: text.reason,
      consentText: text.consentText,
      limits: text.limitsSet,
      clauses: text.clauses.map(({ when: _when, blocks: _blocks, ...clause }): Clause => clause as Clause),
    },
    'text',
  );
  const set = (change: Partial<typeof draft>) => setValues((before) => ({ ...before, ...change }));
  const save = useSend(changeText, {
    refresh: ['agreement-texts'],
    said: 'The draft was saved.',
    then: (reply) => setVersion(reply.version),
  });
  const problem = asProblem(save.error);
  const atFault = /^clauses\.(\d+)/.exec(problem?.fields[0]?.field ?? problem?.problem.field ?? '');
  const faulty = atFault ? save.variables?.clauses[Number(atFault[1])] : undefined; // as sent: the list may have been moved since
  const { reason: _, ...content } = draft;
  return (
    <>
      <Kept draft={typed} />
      <TextInput
        label="Title"
        maw={640}
        maxLength={160}
        value={draft.title}
        onChange={(event) => set({ title: event.currentTarget.value })}
      />
      <Textarea
        label="Why a new text"
        autosize
        minRows={2}
        maw={640}
        mt="sm"
        value={draft.reason}
        onChange={(event) => set({ reason: event.currentTarget.value })}
      />
      <LimitsEditor limits={draft.limits} onChange={(limits) => set({ limits })} />
      <h2>Clauses</h2>
      <ClauseList
        clauses={draft.clauses}
        locked={text.lockedHere}
        fields={text.fields}
        services={text.serviceNames}
        onChange={(clauses) => set({ clauses })}
      />
      <Textarea
        label="Consent to electronic records"
        description="Shown beside the agreement and kept with every signature."
        autosize
        minRows={4}
        maw={760}
        mt="lg"
        value={draft.consentText}
        onChange={(event) => set({ consentText: event.currentTarget.value })}
      />
      <ProblemNote of={save.error}>{faulty ? <p>At the clause "{faulty.title || faulty.key}".</p> : null}</ProblemNote>
      <Group mt="lg">
        <Button loading={save.isPending} onClick={() => whileSending(typed, () => save.mutate({ id: text.id, version, ...draft }))}>
          Save the draft
        </Button>
        <ButtonLink to="/agreement-texts/$textId" params={{ textId: text.id }} variant="default">
          Look at the text
        </ButtonLink>
      </Group>
      <Preview content={content} />
    </>
  );
}
