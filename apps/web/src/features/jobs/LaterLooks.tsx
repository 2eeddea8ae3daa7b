// What the season put off, with its price: booked in one act, or declined.
import { useState, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import type { JobPage as Job } from '@backsight/contract/jobs';
import type { JobDesk } from '@backsight/contract/jobs/desk';
import { bookLook, declineLook } from '../../api/desk.ts';
import { keyWith, newId } from '../../api/ids.ts';
import { Follows } from '../../ui/Follows.tsx';
import { Money } from '../../ui/Money.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Day } from '../../ui/When.tsx';
import { ChooseStart } from './ChooseStart.tsx';
import { useChange } from './useChange.ts';
import classes from './jobs.module.css';

type Look = JobDesk['laterLooks'][number];

export function LaterLooks({ job, looks, mayWork }: { job: Job; looks: readonly Look[]; mayWork: boolean }): ReactNode {
  if (looks.length === 0) return null;
  const declined = looks.filter(({ state }) => state === 'declined');
  // Of a house that nobody inspects nothing is looked at later.
  const shown = looks.filter(({ state }) => state !== 'declined' && !(state === 'offered' && job.state === 'cancelled'));
  return (
    <>
      {shown.length > 0 ? (
        <>
          <h3>Offered for later</h3>
          <ul className={classes.rows}>
            {shown.map((look) => (
              <OneLook key={look.id} job={job} look={look} mayWork={mayWork} />
            ))}
          </ul>
        </>
      ) : null}
      {declined.length > 0 ? (
        <p className={classes.soft}>Offered for later and declined: {declined.map(({ label }) => label.toLowerCase()).join(', ')}.</p>
      ) : null}
    </>
  );
}

function OneLook({ job, look, mayWork }: { job: Job; look: Look; mayWork: boolean }): ReactNode {
  const [open, setOpen] = useState(false);
  const [key] = useState(newId);
  const book = useChange(bookLook, 'The later look is booked and invoiced, and the client was told by mail.', () => setOpen(false));
  const decline = useChange(declineLook, 'Noted: the client does not want it.');
  const bookable = mayWork && look.state === 'offered' && ['booked', 'on_site', 'visited', 'reported'].includes(job.state);
  return (
    <li>
      <div className={classes.words}>
        <strong>{look.label}</strong>, <Money cents={look.cents} />: {look.state}
        {look.state === 'offered' ? (
          <>
            , from <Day day={look.remindOn} /> on
          </>
        ) : null}
        <div className={classes.soft}>{look.reason}</div>
        <ProblemNote of={decline.error} />
      </div>
      {bookable && !open ? (
        <Group gap="xs">
          <Button size="compact-md" variant="default" onClick={() => setOpen(true)}>
            Book it
          </Button>
          <Button
            size="compact-md"
            variant="default"
            loading={decline.isPending}
            onClick={() => decline.mutate({ id: look.id, key: keyWith(key, 'no') })}
          >
            Not wanted
          </Button>
          <Follows>Not wanted is for good: the look is offered no more, and nobody is reminded.</Follows>
        </Group>
      ) : null}
      {open ? (
        <ChooseStart
          job={job}
          kind={look.visitKind}
          without={null}
          notBefore={`${look.remindOn}T00:00:00Z`}
          act="Book the later look"
          busy={book.isPending}
          error={book.error}
          onClose={() => setOpen(false)}
          onStart={(start) => book.mutate({ id: look.id, start, key: keyWith(key, start.startsAt) })}
        />
      ) : null}
    </li>
  );
}
