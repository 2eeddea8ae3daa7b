// After the seal: supplements beside the record, and giving the work paper out by an owner's act.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, Textarea, TextInput } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { GIVEN_TO, type GivenTo } from '@backsight/domain/sitework/afterSeal';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { afterSealQuery, giveOutRecord, supplementRecord } from '../../api/sitework.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { instantText, localInput, toInstant } from '../../ui/time.ts';
import classes from './sitework.module.css';

export function AfterSeal({ recordId }: { recordId: string }): ReactNode {
  const me = useMe();
  const { data, error } = useQuery(afterSealQuery(recordId));
  return (
    <section>
      <h2 className={classes.day}>After the seal</h2>
      <ProblemNote of={error} />
      {data && data.supplements.length + data.givenOut.length === 0 ? (
        <p className={classes.soft}>No supplement, and given to nobody.</p>
      ) : null}
      <ul className={classes.plain}>
        {data?.supplements.map(({ id, text, by, happenedAt }) => (
          <li key={id}>
            Supplement of {by}, {instantText(happenedAt, me.zone)}: {text ?? 'erased'}
          </li>
        ))}
        {data?.givenOut.map(({ id, to, text, by, happenedAt }) => (
          <li key={id}>
            Given to {GIVEN_TO[to]} by {by}, {instantText(happenedAt, me.zone)}: {text ?? 'erased'}
          </li>
        ))}
      </ul>
      <Supplement recordId={recordId} />
      {me.roles.includes('owner') ? <GiveOut recordId={recordId} /> : null}
    </section>
  );
}

function useAdding<T>(recordId: string, add: (input: T) => Promise<unknown>, done: () => void) {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: add,
    onSuccess: async () => {
      done();
      await queries.invalidateQueries({ queryKey: ['record', recordId, 'after-seal'] });
    },
  });
}

function Supplement({ recordId }: { recordId: string }): ReactNode {
  const me = useMe();
  const [id, setId] = useState(newId);
  const { values, setValues, draft } = useDraft({ text: '', at: localInput(new Date(), me.zone) }, 'supplement');
  const { text, at } = values;
  const add = useAdding(recordId, supplementRecord, () => {
    setValues({ text: '', at: localInput(new Date(), me.zone) });
    setId(newId());
  });
  return (
    <details className={classes.more} open={draft?.found || undefined}>
      <summary>Add a supplement</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          whileSending(draft, () => add.mutate({ recordId, id, text, happenedAt: toInstant(at, me.zone) }));
        }}
      >
        <Kept draft={draft} />
        <p className={classes.soft}>
          The record stays as it was sealed. What was found or remembered later stands beside it, with its own time.
        </p>
        <ProblemNote of={add.error} />
        <Textarea
          label="What was found or remembered"
          required
          autosize
          minRows={3}
          value={text}
          onChange={(event) => setValues({ text: event.currentTarget.value, at })}
        />
        <TextInput
          type="datetime-local"
          label="When it was seen"
          required
          mt="sm"
          value={at}
          onChange={(event) => setValues({ text, at: event.currentTarget.value })}
        />
        <Button type="submit" size="lg" mt="sm" loading={add.isPending} disabled={text.trim() === ''}>
          Add it
        </Button>
      </form>
    </details>
  );
}

const TO = (Object.keys(GIVEN_TO) as GivenTo[]).map((value) => ({ value, label: GIVEN_TO[value] }));

function GiveOut({ recordId }: { recordId: string }): ReactNode {
  const [id, setId] = useState(newId);
  const [to, setTo] = useState<GivenTo>('attorney');
  const [words, setWords] = useState('');
  const give = useAdding(recordId, giveOutRecord, () => {
    setWords('');
    setId(newId());
  });
  return (
    <details className={classes.more}>
      <summary>Give it out</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          give.mutate({ recordId, id, to, words });
        }}
      >
        <p className={classes.soft}>
          The record is the firm's work paper. Ask the attorney first. What is given is the PDF as it stands now; that you gave it, to whom
          and why is kept.
        </p>
        <ProblemNote of={give.error} />
        <NativeSelect label="To" data={TO} value={to} onChange={(event) => setTo(event.currentTarget.value as GivenTo)} />
        <TextInput
          label="Name, and why"
          required
          mt="sm"
          maxLength={1000}
          value={words}
          onChange={(event) => setWords(event.currentTarget.value)}
        />
        <Button type="submit" size="lg" mt="sm" loading={give.isPending} disabled={words.trim() === ''}>
          Record that it is given out
        </Button>
      </form>
    </details>
  );
}
