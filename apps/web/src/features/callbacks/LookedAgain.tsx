// What the visits of a callback recorded, step by step beside what was recorded at the inspection.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { LookedAgain as Looked } from '@backsight/contract/callbacks/remedies';
import { lookedAgainQuery } from '../../api/remedies.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { When } from '../../ui/When.tsx';

type Step = Looked['steps'][number];
const said = (answers: readonly string[], none: string): string => (answers.length === 0 ? none : answers.join('; '));
const COLUMNS: Column<Step>[] = [
  { key: 'step', head: 'Step', cell: ({ title, item }) => `${title}${item ? `, ${item}` : ''}` },
  { key: 'then', head: 'At the inspection', cell: ({ then }) => said(then, 'nothing recorded') },
  { key: 'now', head: 'At the visit', cell: ({ now }) => said(now, 'nothing recorded yet') },
];

export function LookedAgain({ id }: { id: string }): ReactNode {
  const { data } = useQuery(lookedAgainQuery(id));
  return (data ?? [])
    .filter(({ recordId }) => recordId !== null)
    .map((visit) => (
      <div key={visit.jobId}>
        <p>
          {`${visit.pair.join(' and ')} looked again on `}
          <When at={visit.startsAt} />
          {visit.sealedAt ? '; the record is sealed. ' : '; the record is not sealed yet. '}
          <TextLink to="/jobs/$jobId" params={{ jobId: visit.jobId }}>{`Job ${visit.jobNumber}`}</TextLink>
        </p>
        <DataTable
          caption="The inspection and the visit side by side"
          columns={COLUMNS}
          rows={visit.steps}
          rowKey={(s) => s.stepKey + (s.item ?? '')}
        />
        {visit.acts.length > 0 ? <p>{`Besides the steps: ${visit.acts.join('; ')}.`}</p> : null}
      </div>
    ));
}
