// A new procedure: its name, the system of the house, its place in the book, and why it is wanted; then its first draft is written.
import { useState, type ReactNode } from 'react';
import { NativeSelect, Textarea, TextInput } from '@mantine/core';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { keyFor } from '@backsight/domain/shared/keyFor';
import { newId } from '../../api/ids.ts';
import { beginProcedure, bookQuery } from '../../api/procedures.ts';
import { Form } from '../../ui/Form.tsx';
import { Page } from '../../ui/Page.tsx';
import { useFields } from '../../ui/useFields.ts';
import { systemName } from './words.ts';

const LABELS = { title: 'Title', system: 'System of the house', beforeId: 'Where it stands in the book', reason: 'Why it is wanted' };

export function NewProcedurePage(): ReactNode {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const book = useQuery(bookQuery).data ?? [];
  const [ids, setIds] = useState(() => ({ id: newId(), revisionId: newId(), key: newId() }));
  const begin = useMutation({
    mutationFn: beginProcedure,
    onSuccess: async ({ revisionId }) => {
      await queries.invalidateQueries({ queryKey: ['procedures'] });
      await navigate({ to: '/procedures/draft/$revisionId', params: { revisionId } });
    },
    onError: () => setIds({ id: newId(), revisionId: newId(), key: newId() }),
  });
  const fields = useFields({ title: '', system: '', beforeId: '', reason: '' }, LABELS, begin.error);
  const { title, system, beforeId, reason } = fields.values;
  const systems = [...new Set(book.map((one) => one.system))];
  const send = () =>
    begin.mutate({
      ...ids,
      ...{ title, reason, beforeId: beforeId === '' ? null : beforeId },
      slug: keyFor(
        title,
        book.map(({ key }) => key),
      ),
      system: system === '' ? keyFor(title, systems).replaceAll('-', '_').slice(0, 40) : system,
    });
  return (
    <Page title="New procedure" width="narrow" about="Nothing counts until somebody else has approved its first revision.">
      <Form error={begin.error} labels={LABELS} draft={fields.draft} submit="Begin its first draft" busy={begin.isPending} onSubmit={send}>
        <TextInput {...fields.text('title')} required mb="sm" />
        <NativeSelect
          {...fields.text('system')}
          mb="sm"
          description="Re-inspections choose procedures by it"
          data={[{ value: '', label: 'a system of its own' }, ...systems.map((value) => ({ value, label: systemName(value) }))]}
        />
        <NativeSelect
          {...fields.text('beforeId')}
          mb="sm"
          description="The pair goes through the book in this order"
          data={[{ value: '', label: 'at the end' }, ...book.map(({ id, title: name }) => ({ value: id, label: `before ${name}` }))]}
        />
        <Textarea
          {...fields.text('reason')}
          required
          autosize
          minRows={2}
          mb="sm"
          description="Every inspector reads this on the phone: no client, address or amount."
        />
      </Form>
    </Page>
  );
}
