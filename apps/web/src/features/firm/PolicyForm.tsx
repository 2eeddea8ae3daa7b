// The form of an insurance policy: a new one, or one that is corrected.
import { useState, type ReactNode } from 'react';
import { DateTime } from 'luxon';
import { Button, NativeSelect, SimpleGrid, Textarea, TextInput } from '@mantine/core';
import type { Policy } from '@backsight/contract/firm';
import { addPolicy, changePolicy, type NewPolicy } from '../../api/firm.ts';
import { newId } from '../../api/ids.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { centsOf } from '../../ui/amount.ts';

export const KINDS = { professional: 'Professional liability', general: 'General liability' };
export const BASES = { claims_made: 'claims made in the period', occurrence: 'events in the period' };
const LABELS = {
  kind: 'Kind',
  basis: 'Covers',
  insurer: 'Insurer',
  number: 'Policy number',
  startsOn: 'Begins',
  endsOn: 'Ends',
  retroactiveOn: 'Covers work since',
  limitCents: 'Most for one claim, in dollars',
  aggregateCents: 'Most for all claims, in dollars',
  deductibleCents: 'Deductible, in dollars',
  claimMeans: 'What the policy calls a claim',
  reportable: 'Which circumstances must be reported',
  noticeAddress: 'Where notice is sent',
};
const EMPTY = {
  kind: 'professional',
  basis: 'claims_made',
  insurer: '',
  number: '',
  startsOn: '',
  endsOn: '',
  retroactiveOn: '',
  limitCents: '',
  aggregateCents: '',
  deductibleCents: '',
  claimMeans: '',
  reportable: '',
  noticeAddress: '',
};
const options = (names: Record<string, string>) => Object.entries(names).map(([value, label]) => ({ value, label }));

function typedOf({ id: _, ...policy }: Policy): typeof EMPTY {
  const { retroactiveOn, limitCents, aggregateCents, deductibleCents } = policy;
  return {
    ...policy,
    retroactiveOn: retroactiveOn ?? '',
    limitCents: (limitCents / 100).toFixed(2),
    aggregateCents: aggregateCents === null ? '' : (aggregateCents / 100).toFixed(2),
    deductibleCents: (deductibleCents / 100).toFixed(2),
  };
}

/** The next period of a policy: it begins where the last one ends and is as long, with the same terms until somebody types others. */
function renewed({ startsOn, endsOn, ...rest }: Policy): typeof EMPTY {
  const days = DateTime.fromISO(endsOn, { zone: 'utc' }).diff(DateTime.fromISO(startsOn, { zone: 'utc' }), 'years');
  return {
    ...typedOf({ ...rest, startsOn, endsOn }),
    number: '',
    startsOn: endsOn,
    endsOn: DateTime.fromISO(endsOn, { zone: 'utc' }).plus(days).toISODate()!,
  };
}

/** `renews`: the policy whose next period is typed. */
export function PolicyForm({ policy, renews, done }: { policy: Policy | null; renews?: Policy; done: () => void }): ReactNode {
  const [ids] = useState(() => ({ id: policy?.id ?? newId(), key: newId() }));
  const send = (sent: NewPolicy) => (policy ? changePolicy(sent) : addPolicy({ ...sent, key: ids.key }));
  const save = useSend(send, { refresh: ['firm'], said: policy ? 'The policy was changed.' : 'The policy is on file.', then: done });
  const { text, values, draft } = useFields(policy ? typedOf(policy) : renews ? renewed(renews) : EMPTY, LABELS, save.error);
  const sent = {
    ...(values as typeof values & Pick<NewPolicy, 'kind' | 'basis'>),
    id: ids.id,
    retroactiveOn: values.retroactiveOn || null,
    limitCents: centsOf(values.limitCents),
    aggregateCents: values.aggregateCents.trim() === '' ? null : centsOf(values.aggregateCents),
    deductibleCents: centsOf(values.deductibleCents),
  };
  return (
    <Form
      error={save.error}
      labels={LABELS}
      draft={draft}
      submit={policy ? 'Save the policy' : 'Put it on file'}
      busy={save.isPending}
      onSubmit={() => save.mutate(sent)}
      besides={
        <Button variant="default" onClick={done}>
          Leave without saving
        </Button>
      }
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }} mt="md">
        <NativeSelect {...text('kind')} data={options(KINDS)} />
        <NativeSelect {...text('basis')} data={options(BASES)} />
        <TextInput {...text('insurer')} required />
        <TextInput {...text('number')} required />
        <TextInput {...text('startsOn')} type="date" required />
        <TextInput {...text('endsOn')} type="date" required />
        <TextInput {...text('limitCents')} inputMode="decimal" required />
        <TextInput {...text('aggregateCents')} inputMode="decimal" description="Blank where the policy names none" />
        <TextInput {...text('deductibleCents')} inputMode="decimal" required />
        <TextInput {...text('retroactiveOn')} type="date" description="Blank where the policy has no such day" />
      </SimpleGrid>
      <Textarea {...text('claimMeans')} mt="sm" autosize minRows={2} />
      <Textarea {...text('reportable')} mt="sm" required autosize minRows={2} />
      <Textarea {...text('noticeAddress')} mt="sm" required autosize minRows={2} />
    </Form>
  );
}
