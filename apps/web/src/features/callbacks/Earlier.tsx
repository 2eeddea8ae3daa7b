// What was like it before: callbacks at this property, callbacks traced to the same steps anywhere, and how often two looks at those steps differed.
import type { ReactNode } from 'react';
import { CAUSES, KINDS, STATES, type Callback, type CallbackEvidence } from '@backsight/contract/callbacks';
import { RECORDS_LOOKED_AT } from '@backsight/domain/sitework/partner';
import type { CallbackBackground } from '@backsight/contract/callbacks/background';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';

type Same = CallbackBackground['sameSteps'][number] & { step: string };
const said = (list: Record<string, string>, key: string): string => list[key] ?? key;
const number = (c: { id: string; number: number }): ReactNode => (
  <TextLink to="/callbacks/$callbackId" params={{ callbackId: c.id }}>
    {c.number}
  </TextLink>
);

const HERE: Column<Callback['others'][number]>[] = [
  { key: 'number', head: 'Callback', cell: number },
  { key: 'kind', head: 'What', cell: ({ kind }) => said(KINDS, kind) },
  { key: 'state', head: 'State', cell: ({ state }) => said(STATES, state) },
  { key: 'received', head: 'Received', cell: ({ receivedAt }) => <When at={receivedAt} /> },
];
const SAME: Column<Same>[] = [
  { key: 'number', head: 'Callback', cell: number },
  { key: 'step', head: 'Traced step', cell: ({ step, revision }) => `${step}, revision ${revision}` },
  { key: 'cause', head: 'Cause', cell: ({ cause }) => said(CAUSES, cause) },
  { key: 'where', head: 'Property', cell: ({ where }) => where },
  { key: 'received', head: 'Received', cell: ({ receivedAt }) => <When at={receivedAt} /> },
];

type Props = { callback: Callback; around: CallbackBackground; steps: CallbackEvidence['steps'] };

export function Earlier({ callback, around, steps }: Props): ReactNode {
  const titles = new Map(steps.map(({ stepKey, title }) => [stepKey, title]));
  const traced = callback.conclusions?.[0]?.stepKey ?? null;
  const same = around.sameSteps
    .map((row) => ({ ...row, step: titles.get(row.stepKey) ?? row.stepKey }))
    .toSorted((a, b) => Number(b.stepKey === traced) - Number(a.stepKey === traced));
  const looks = around.twoLooks.filter(({ differed, stepKey }) => differed > 0 || stepKey === traced);
  return (
    <Section title="Like it before">
      {callback.others.length === 0 ? (
        <p>No other callback at this property.</p>
      ) : (
        <DataTable caption="Other callbacks at this property" columns={HERE} rows={callback.others} rowKey={({ id }) => id} />
      )}
      {same.length === 0 ? (
        <p>No other callback was traced to a step of this job.</p>
      ) : (
        <DataTable caption="Callbacks traced to steps of this job, at any property" columns={SAME} rows={same} rowKey={({ id }) => id} />
      )}
      {looks.length > 0 ? (
        <details>
          <summary>{`How often two independent looks differed, over the newest ${RECORDS_LOOKED_AT} sealed records`}</summary>
          <ul>
            {looks.map((row) => (
              <li key={row.stepKey}>{`${titles.get(row.stepKey) ?? row.stepKey}: ${row.differed} of ${row.looks}`}</li>
            ))}
          </ul>
        </details>
      ) : null}
    </Section>
  );
}
