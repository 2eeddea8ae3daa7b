// Why the firm does a step: a duty of a published rule, or its own extra; and what it meets of other states besides.
import type { ReactNode } from 'react';
import { MultiSelect, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Step } from '@backsight/domain/procedures/step';
import { dutiesQuery } from '../../api/procedures.ts';

type Props = { step: Step; onChange: (step: Step) => void };

/** The published duties by state, those that are chosen but not on file among them. */
function useDuties(chosen: readonly string[]) {
  const duties = useQuery(dutiesQuery).data ?? [];
  const states = [...new Set(duties.map(({ jurisdiction }) => jurisdiction))];
  const unknown = chosen.filter((id) => !duties.some((duty) => duty.id === id));
  return [
    ...states.map((group) => ({
      group,
      items: duties.filter(({ jurisdiction }) => jurisdiction === group).map(({ id, words }) => ({ value: id, label: `${id} ${words}` })),
    })),
    ...(unknown.length > 0 ? [{ group: 'Not on file', items: unknown.map((value) => ({ value, label: value })) }] : []),
  ];
}

export function BasisEditor({ step, onChange }: Props): ReactNode {
  const { basis, alsoMeets, ...rest } = step;
  const rows = basis.kind === 'duty' ? basis.rows : [];
  const data = useDuties([...rows, ...(alsoMeets ?? [])]);
  return (
    <>
      <NativeSelect
        label="It is"
        maw={320}
        data={[
          { value: 'duty', label: 'a duty of the published rule' },
          { value: 'own_extra', label: 'our own extra' },
        ]}
        value={basis.kind}
        onChange={(event) =>
          onChange({ ...step, basis: event.currentTarget.value === 'duty' ? { kind: 'duty', rows: [] } : { kind: 'own_extra' } })
        }
      />
      {basis.kind === 'duty' ? (
        <MultiSelect
          label="Duties of the firm that it carries out"
          searchable
          limit={60}
          data={data}
          value={[...rows]}
          onChange={(chosen) => onChange({ ...step, basis: { kind: 'duty', rows: chosen } })}
        />
      ) : null}
      <MultiSelect
        label="Rows of other states that it meets besides"
        description="For the table of coverage only; no duty of the firm"
        searchable
        limit={60}
        data={data}
        value={[...(alsoMeets ?? [])]}
        onChange={(chosen) => onChange(chosen.length === 0 ? { ...rest, basis } : { ...rest, basis, alsoMeets: chosen })}
      />
    </>
  );
}
