// The wording of each kind of mail: the firm's own or the built-in one, its fields, a look with a real job, and what it was before.
import type { ReactNode } from 'react';
import { Button, NativeSelect, SimpleGrid, TextInput, Textarea } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { WordingShown } from '@backsight/contract/mail/wordings';
import { changeWording, resetWording, wordingsQuery } from '../../api/mail.ts';
import { useMe } from '../../api/people.ts';
import { Details } from '../../ui/Details.tsx';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { WordingPreview } from './WordingPreview.tsx';

const route = getRouteApi('/shell/mail/wordings');

export function WordingsPage(): ReactNode {
  const found = useQuery(wordingsQuery);
  const { kind = 'confirmation' } = route.useSearch();
  const navigate = route.useNavigate();
  const wording = found.data?.find((one) => one.kind === kind);
  return (
    <Page
      title="Wordings of mail"
      about="What the firm writes to people outside, in its own words."
      width="narrow"
      actions={<TextLink to="/mail">Outbox</TextLink>}
    >
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      <NativeSelect
        label="Mail"
        value={kind}
        data={(found.data ?? []).map((one) => ({ value: one.kind, label: `${one.title}${one.builtIn ? '' : ' (own wording)'}` }))}
        onChange={(event) => void navigate({ search: { kind: event.currentTarget.value }, replace: true })}
      />
      {wording ? <Word key={`${kind} ${wording.history[0]?.id ?? ''}`} wording={wording} /> : null}
    </Page>
  );
}

const LABELS = { subject: 'Subject', body: 'Text', attorney: 'Attorney who reviewed these words', on: 'Reviewed on' };

function Word({ wording }: { wording: WordingShown }): ReactNode {
  const { kind, subject, body, builtIn, review: before, fields: known } = wording;
  const owner = useMe().roles.includes('owner');
  const save = useSend(changeWording, { refresh: ['mail', 'wordings'], said: 'The wording counts from now on.' });
  const reset = useSend(resetWording, { refresh: ['mail', 'wordings'], said: 'The built-in wording counts again.' });
  const fields = useFields({ subject, body, attorney: '', on: '' }, LABELS, save.error ?? reset.error);
  const { attorney, on, ...words } = fields.values;
  const review = attorney.trim() === '' || on === '' ? null : { attorney, on };
  return (
    <>
      <p>
        {builtIn ? 'The built-in wording counts.' : 'The firm’s own wording counts.'}
        {before ? (
          <>
            {' '}
            <strong>
              Locked: reviewed by {before.attorney} on <Day day={before.on} />.
            </strong>{' '}
            Other words need a new review by an owner.
          </>
        ) : null}
      </p>
      <ProblemNote of={reset.error} />
      <Form
        error={save.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Save the wording"
        busy={save.isPending}
        onSubmit={() => save.mutate({ kind, ...words, review })}
        besides={
          builtIn ? null : (
            <Button variant="default" loading={reset.isPending} onClick={() => reset.mutate({ kind, review })}>
              Back to the built-in wording
            </Button>
          )
        }
      >
        <TextInput {...fields.text('subject')} />
        <Textarea mt="sm" autosize minRows={8} {...fields.text('body')} description="A blank line begins a new paragraph." />
        {owner ? (
          <SimpleGrid cols={{ base: 1, xs: 2 }} mt="sm" style={{ alignItems: 'end' }}>
            <TextInput {...fields.text('attorney')} description="Blank: nobody reviewed them. Reviewed words are locked." />
            <TextInput {...fields.text('on')} type="date" />
          </SimpleGrid>
        ) : null}
      </Form>
      <Section title="Fields">
        <Details
          rows={known.map(
            ({ name, about, optional, must }) =>
              [`{{${name}}}`, `${about}${must ? '; has to stand in the text' : ''}${optional ? '; may be empty' : ''}`] as const,
          )}
        />
      </Section>
      <WordingPreview kind={kind} words={words} />
      <History history={wording.history} />
    </>
  );
}

function History({ history }: { history: WordingShown['history'] }): ReactNode {
  if (history.length === 0) return null;
  return (
    <Section title="What it was before">
      <ol reversed>
        {history.map(({ id, subject, body, attorney, recordedBy, recordedAt }) => (
          <li key={id}>
            <When at={recordedAt} />, {recordedBy}: {body === null ? 'back to the built-in wording' : subject}
            {attorney ? `, reviewed by ${attorney}` : ''}
            {body === null ? null : (
              <details>
                <summary>Text</summary>
                <pre style={{ whiteSpace: 'pre-wrap', font: 'inherit' }}>{body}</pre>
              </details>
            )}
          </li>
        ))}
      </ol>
    </Section>
  );
}
