// Drafts a version from the sealed record: the writer says which entries are defects, and in which words.
import { useState, type ReactNode } from 'react';
import { Checkbox, SimpleGrid, Textarea, TextInput } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { Register } from '@backsight/contract/sitework/reports';
import { placeOf } from '@backsight/domain/sitework/value';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { draftReport } from '../../api/sitework.ts';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import classes from './sitework.module.css';

const LABELS = { completedOn: 'Inspection completed on', reportOn: 'Report date' };
type Source = Register['sources'][number];
const wording = (s: Source): string => `${s.title}${s.item ? ` (${s.item})` : ''}: ${s.answer}${s.note ? `. ${s.note}` : ''}`;

export function DraftReport({ register }: { register: Register }): ReactNode {
  const me = useMe();
  const queries = useQueryClient();
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const shown = register.sources.filter(({ system }) => system !== 'arrival' && system !== 'leaving');
  const [texts, setTexts] = useState<Record<string, string>>(() =>
    Object.fromEntries(shown.filter(({ worthALook }) => worthALook).map((s) => [placeOf(s), wording(s)])),
  );
  const make = useMutation({
    mutationFn: draftReport,
    onSuccess: async ({ version }) => {
      saved(`Version ${version} was drafted.`);
      setIds({ id: newId(), key: newId() });
      await queries.invalidateQueries({ queryKey: ['jobs', register.jobId, 'reports'] });
    },
  });
  const fields = useFields({ completedOn: register.inspectedOn ?? '', reportOn: todayIn(me.zone) }, LABELS, make.error);
  const send = () => {
    const defects = shown.flatMap((s) => {
      const text = texts[placeOf(s)];
      return text === undefined ? [] : [{ stepKey: s.stepKey, itemId: s.itemId, text: text.trim() || wording(s) }];
    });
    make.mutate({ jobId: register.jobId, ...ids, ...fields.values, defects });
  };
  const toggle = (s: Source, on: boolean) =>
    setTexts(({ [placeOf(s)]: _old, ...rest }) => (on ? { ...rest, [placeOf(s)]: wording(s) } : rest));
  return (
    <details className={classes.more}>
      <summary>{register.reports.length === 0 ? 'Draft the report' : 'Draft another version'}</summary>
      <Form error={make.error} labels={LABELS} submit="Draft this version" busy={make.isPending} onSubmit={send}>
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <TextInput {...fields.text('completedOn')} type="date" required />
          <TextInput {...fields.text('reportOn')} type="date" required />
        </SimpleGrid>
        <fieldset className={classes.set}>
          <legend>Defects for the summary</legend>
          <p className={classes.soft}>What is outside the usual range or does not match is marked already. You decide what is a defect.</p>
          {shown.map((s) => (
            <div key={placeOf(s)} className={classes.row}>
              <Checkbox
                size="md"
                label={`${s.procedure}. ${wording(s)}`}
                checked={texts[placeOf(s)] !== undefined}
                onChange={(event) => toggle(s, event.currentTarget.checked)}
              />
              {s.spoken ? (
                <p className={classes.soft}>
                  A spoken note belongs to it: listen on the sealed record, and write what the client should read.
                </p>
              ) : null}
              {texts[placeOf(s)] === undefined ? null : (
                <Textarea
                  label="In the summary"
                  autosize
                  mt="xs"
                  maxLength={1000}
                  value={texts[placeOf(s)]}
                  onChange={(event) => {
                    const { value } = event.currentTarget;
                    setTexts((all) => ({ ...all, [placeOf(s)]: value }));
                  }}
                />
              )}
            </div>
          ))}
        </fieldset>
      </Form>
    </details>
  );
}
