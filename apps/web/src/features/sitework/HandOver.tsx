// Hands the newest version over, and says why when it cannot leave yet.
import { useState, type ReactNode } from 'react';
import { NativeSelect, SimpleGrid } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { Register, Report } from '@backsight/contract/sitework/reports';
import { newId } from '../../api/ids.ts';
import { handOver } from '../../api/sitework.ts';
import { Form } from '../../ui/Form.tsx';
import { saved } from '../../ui/saved.ts';
import { useFields } from '../../ui/useFields.ts';

const LABELS = { partyId: 'To', method: 'How' };
type Method = 'mail' | 'own_mail' | 'paper';
const WAYS: { value: Method; label: string }[] = [
  { value: 'mail', label: 'by mail, from here' },
  { value: 'own_mail', label: 'sent from our own mail program' },
  { value: 'paper', label: 'given on paper' },
];

export function HandOver({ report, register }: { report: Report; register: Register }): ReactNode {
  const queries = useQueryClient();
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const hand = useMutation({
    mutationFn: handOver,
    onSuccess: async ({ awaited }) => {
      saved(awaited.length > 0 ? `Handed over. The job is complete when the result is told: ${awaited.join(', ')}.` : 'Handed over.');
      await queries.invalidateQueries({ queryKey: ['jobs', register.jobId, 'reports'] });
    },
    onSettled: () => setIds({ id: newId(), key: newId() }),
  });
  const client = register.parties.find(({ roles }) => roles.includes('client'));
  const fields = useFields({ partyId: client?.partyId ?? '', method: WAYS[0]!.value }, LABELS, hand.error);
  const people = register.parties.map((p) => ({
    value: p.partyId,
    label: `${p.name}, ${p.roles.join(', ').replaceAll('_', ' ')}${p.mayReceive ? '' : ' (no consent of the client)'}`,
  }));
  return (
    <Form
      error={hand.error}
      labels={LABELS}
      submit="Hand it over"
      busy={hand.isPending}
      onSubmit={() => hand.mutate({ reportId: report.id, ...ids, ...fields.values })}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <NativeSelect {...fields.text('partyId')} data={people} />
        <NativeSelect {...fields.text('method')} data={WAYS} />
      </SimpleGrid>
    </Form>
  );
}
