// One's own private calendar address: opened, shown once, closed.
import { useState, type ReactNode } from 'react';
import { Button, CopyButton, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { calendarFeedQuery, closeCalendarFeed, openCalendarFeed } from '../../api/own.ts';
import { Follows } from '../../ui/Follows.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';

export function CalendarAddress(): ReactNode {
  const state = useQuery(calendarFeedQuery);
  const [address, setAddress] = useState<string | null>(null);
  const refresh = ['calendar-feed'];
  const open = useSend((_: null) => openCalendarFeed(), {
    refresh,
    said: 'The address is open.',
    then: (reply) => setAddress(reply.address),
  });
  const close = useSend((_: null) => closeCalendarFeed(), { refresh, said: 'The address is closed.', then: () => setAddress(null) });
  const since = state.data?.since ?? null;
  return (
    <Section title="Calendar address">
      <p>
        Your visits and absences in the calendar of your phone: where, when and with whom, nothing about clients. Whoever has the address
        can read it, so it is shown once.
      </p>
      <ProblemNote of={state.error ?? open.error ?? close.error} />
      {state.isPending ? <Loading /> : null}
      {address ? <Shown address={address} /> : null}
      {state.data ? (
        <>
          <p>
            {since ? (
              <>
                Open since <When at={since} />.
              </>
            ) : (
              'No address is open.'
            )}
          </p>
          <Group>
            <Button variant="default" loading={open.isPending} onClick={() => open.mutate(null)}>
              {since ? 'Open a new one instead' : 'Open an address'}
            </Button>
            {since ? (
              <Button variant="default" loading={close.isPending} onClick={() => close.mutate(null)}>
                Close it
              </Button>
            ) : null}
            {since ? (
              <Follows>The address of now stops at once, and calendars that read it show nothing new. It never comes back.</Follows>
            ) : null}
          </Group>
        </>
      ) : null}
    </Section>
  );
}

function Shown({ address }: { address: string }): ReactNode {
  return (
    <Group align="flex-end" mb="sm">
      <TextInput
        label="Your address"
        value={address}
        readOnly
        style={{ flex: '1 1 16rem' }}
        onFocus={(event) => event.currentTarget.select()}
      />
      <CopyButton value={address}>
        {({ copied, copy }) => (
          <Button variant="default" onClick={copy}>
            {copied ? 'Copied' : 'Copy'}
          </Button>
        )}
      </CopyButton>
    </Group>
  );
}
