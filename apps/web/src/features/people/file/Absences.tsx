// Absences of a person: asked for, entered, decided and withdrawn. Entering one lists the booked visits that it hits.
import { useState, type ReactNode } from 'react';
import { Button, SimpleGrid, TextInput } from '@mantine/core';
import { DateTime } from 'luxon';
import type { PersonFile } from '@backsight/contract/people/file';
import { spanInWords } from '@backsight/domain/shared/span';
import { newId } from '../../../api/ids.ts';
import { useMe } from '../../../api/people.ts';
import { addAbsence, withdrawAbsence } from '../../../api/personFile.ts';
import { DataTable, type Column } from '../../../ui/DataTable.tsx';
import { Empty } from '../../../ui/Empty.tsx';
import { Follows } from '../../../ui/Follows.tsx';
import { Form } from '../../../ui/Form.tsx';
import { ProblemNote } from '../../../ui/ProblemNote.tsx';
import { useFields } from '../../../ui/useFields.ts';
import { useSend } from '../../../ui/useSend.ts';
import { decides } from '../words.ts';
import { AddPart, Leave } from './AddPart.tsx';
import { DecideAbsence } from '../../../ui/acts/DecideAbsence.tsx';
import { HitVisits } from './HitVisits.tsx';

type Absence = PersonFile['absences'][number];
const LABELS = { startsAt: 'From', endsAt: 'Until', reason: 'Reason, seen only by you and those who decide' };
const STATES: Record<Absence['state'], string> = { asked: 'asked, not decided yet', approved: 'approved', refused: 'refused' };

export function Absences({ personId, rows, mayAdd }: { personId: string; rows: Absence[]; mayAdd: boolean }): ReactNode {
  const me = useMe();
  const decider = decides(me.roles);
  const withdraw = useSend(({ id }: Absence) => withdrawAbsence(id), {
    refresh: ['people', personId, 'file'],
    said: 'The absence was withdrawn.',
    undo: ({ startsAt, endsAt, reason, state }) =>
      decider && state === 'approved' && reason
        ? () => addAbsence({ personId, id: newId(), key: newId(), startsAt, endsAt, reason })
        : null,
  });
  const open = decider && personId !== me.id ? rows.filter(({ state }) => state === 'asked') : [];
  const columns: Column<Absence>[] = [
    { key: 'when', head: 'Away', cell: ({ startsAt, endsAt }) => spanInWords(new Date(startsAt), new Date(endsAt), me.zone) },
    { key: 'reason', head: 'Reason', cell: ({ reason }) => reason ?? 'not shown' },
    { key: 'state', head: 'State', cell: ({ state, decision }) => (decision ? `${STATES[state]}: ${decision}` : STATES[state]) },
    ...(mayAdd
      ? [
          {
            key: 'act',
            head: 'Change',
            cell: (absence: Absence) =>
              absence.state === 'refused' ? null : (
                <Button size="compact-sm" variant="default" onClick={() => withdraw.mutate(absence)}>
                  Withdraw
                </Button>
              ),
          },
        ]
      : []),
  ];
  return (
    <AddPart
      title="Absences"
      add={decider ? 'Enter an absence' : 'Ask for an absence'}
      may={mayAdd}
      form={(done) => <Add personId={personId} decider={decider} done={done} />}
    >
      <ProblemNote of={withdraw.error} />
      {mayAdd && !decider && rows.length > 0 ? (
        <Follows>Withdrawing tells those who decide by mail; to be away after all, it is asked for anew.</Follows>
      ) : null}
      {open.map((absence) => (
        <DecideAbsence key={absence.id} personId={personId} absence={absence} />
      ))}
      {rows.length === 0 ? (
        <Empty>No absence is on file.</Empty>
      ) : (
        <DataTable caption="Absences" columns={columns} rows={rows} rowKey={({ id }) => id} />
      )}
    </AddPart>
  );
}

function Add({ personId, decider, done }: { personId: string; decider: boolean; done: () => void }): ReactNode {
  const { zone } = useMe();
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addAbsence, {
    refresh: ['people', personId, 'file'],
    said: decider ? 'The absence is on file.' : 'The absence is asked for. You get a mail once it is decided.',
    undo: ({ id }) => (decider ? () => withdrawAbsence(id) : null),
    then: ({ warnings, state }) => (warnings.length === 0 || state === 'asked') && done(),
  });
  const fields = useFields({ startsAt: '', endsAt: '', reason: '' }, LABELS, add.error, 'absence');
  const instant = (typed: string): string => DateTime.fromISO(typed, { zone }).toISO() ?? '';
  const send = () =>
    add.mutate({
      startsAt: instant(fields.values.startsAt),
      endsAt: instant(fields.values.endsAt),
      reason: fields.values.reason,
      ...ids,
      personId,
    });
  if (add.data && add.data.warnings.length > 0) return <HitVisits warnings={add.data.warnings} done={done} />;
  return (
    <Form
      error={add.error}
      labels={LABELS}
      scope="absence"
      submit={decider ? 'Enter this absence' : 'Ask for this absence'}
      busy={add.isPending}
      onSubmit={send}
      besides={<Leave done={done} />}
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput {...fields.text('startsAt')} type="datetime-local" required />
        <TextInput {...fields.text('endsAt')} type="datetime-local" required />
      </SimpleGrid>
      <TextInput {...fields.text('reason')} required mt="sm" />
    </Form>
  );
}
