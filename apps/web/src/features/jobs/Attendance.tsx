// Who attends the visit for the client, and when they are to be there.
import { useState, type ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import type { JobPage as Job } from '@backsight/contract/jobs';
import { ARRIVES, type JobDesk } from '@backsight/contract/jobs/desk';
import { noteAttendance } from '../../api/desk.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Kept } from '../../ui/Kept.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

type Given = JobDesk['attendance'];
const WAYS = (Object.keys(ARRIVES) as Given['arrives'][]).map((value) => ({ value, label: ARRIVES[value] }));

export function Attendance({ job, attendance, mayWork }: { job: Job; attendance: Given; mayWork: boolean }): ReactNode {
  const [editing, setEditing] = useState(false);
  const { attendees, arrives, arriveAt } = attendance;
  const open = ['held', 'booked', 'on_site'].includes(job.state);
  if (!open) return null; // of a visit that is over or does not take place
  return (
    <>
      <p>
        {arrives === 'not_at_all' ? 'The client does not attend' : `The client attends ${ARRIVES[arrives]}`}
        {attendees ? `: ${attendees}` : ''}
        {arriveAt ? (
          <>
            , to be there at <When at={arriveAt} />
          </>
        ) : null}
        .{' '}
        {mayWork && !editing ? (
          <Button size="compact-sm" variant="default" onClick={() => setEditing(true)} aria-label="Change who attends">
            Change
          </Button>
        ) : null}
      </p>
      {editing ? <AttendanceForm job={job} attendance={attendance} onDone={() => setEditing(false)} /> : null}
    </>
  );
}

function AttendanceForm({ job, attendance, onDone }: { job: Job; attendance: Given; onDone: () => void }): ReactNode {
  const before = { attendees: attendance.attendees, arrives: attendance.arrives };
  const { values, setValues, draft } = useDraft(before, 'who attends');
  const send = useChange(
    noteAttendance,
    'It is noted who attends.',
    onDone,
    (_, now) => () => noteAttendance({ id: job.id, version: now.version, ...before }),
  );
  return (
    <form
      className={classes.inline}
      onSubmit={(event) => {
        event.preventDefault();
        whileSending(draft, () => send.mutate({ id: job.id, version: job.version, ...values }));
      }}
    >
      <Kept draft={draft} />
      <ProblemNote of={send.error} />
      <Group align="flex-end" gap="sm">
        <TextInput
          label="Who attends"
          value={values.attendees}
          onChange={(event) => setValues({ ...values, attendees: event.currentTarget.value })}
          maxLength={200}
          autoFocus
        />
        <NativeSelect
          label="Comes"
          value={values.arrives}
          onChange={(event) => setValues({ ...values, arrives: event.currentTarget.value as Given['arrives'] })}
          data={WAYS}
        />
        <Button type="submit" loading={send.isPending}>
          Save
        </Button>
        <Button variant="default" onClick={onDone}>
          Leave it
        </Button>
      </Group>
    </form>
  );
}
