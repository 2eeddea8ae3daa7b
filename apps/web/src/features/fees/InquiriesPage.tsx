// Prices that were asked and not booked: whom to ask again, booking without typing it anew, and what became of the others.
import type { ReactNode } from 'react';
import { Button, Group, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import { INQUIRY_OUTCOMES, type InquiryLine, type InquiryOutcome } from '@backsight/contract/jobs/inquiries';
import { closeInquiry, followUpInquiry, inquiriesQuery, inquiryQuery } from '../../api/feeSetUp.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Empty } from '../../ui/Empty.tsx';
import { Follows } from '../../ui/Follows.tsx';
import { Kept } from '../../ui/Kept.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { Day } from '../../ui/When.tsx';

const route = getRouteApi('/shell/inquiries');

export function InquiriesPage(): ReactNode {
  const found = useQuery(inquiriesQuery);
  const { inquiry: chosen } = route.useSearch();
  const navigate = route.useNavigate();
  const choose = (id: string | undefined) => void navigate({ search: { inquiry: id }, replace: true });
  const items = found.data?.items ?? [];
  const open = items.filter(({ outcome }) => outcome === null);
  const closed = items.filter(({ outcome }) => outcome !== null);
  const inquiry = open.find(({ id }) => id === chosen);
  return (
    <Page title="Prices asked" about="Asked for a price and not booked yet. Kept from the screen on which a job is booked.">
      <ProblemNote of={found.error} />
      {found.isPending ? <Loading /> : null}
      {inquiry ? <OneInquiry key={inquiry.id + inquiry.version} inquiry={inquiry} done={() => choose(undefined)} /> : null}
      <Section title="To follow up">
        {found.data && open.length === 0 ? <Empty>Nobody waits to be asked again.</Empty> : null}
        {open.length > 0 ? (
          <DataTable caption="Open inquiries" columns={openColumns(found.data!.today, choose)} rows={open} rowKey={({ id }) => id} />
        ) : null}
      </Section>
      {found.data ? <Outcomes counts={found.data.outcomes} /> : null}
      {closed.length > 0 ? (
        <Section title="Closed">
          <DataTable caption="Closed inquiries" columns={CLOSED} rows={closed} rowKey={({ id }) => id} />
        </Section>
      ) : null}
    </Page>
  );
}

const who = ({ caller, phone, email, address }: InquiryLine): ReactNode => (
  <>
    {caller}
    <div style={{ fontWeight: 'normal' }}>{[phone, email, address].filter(Boolean).join(', ')}</div>
  </>
);

const openColumns = (today: string, choose: (id: string) => void): Column<InquiryLine>[] => [
  { key: 'who', head: 'Caller', cell: who },
  { key: 'price', head: 'Price told', align: 'right', cell: ({ totalCents }) => <Money cents={totalCents} /> },
  {
    key: 'asked',
    head: 'Asked',
    cell: ({ recordedAt, by }) => (
      <>
        <Day day={recordedAt.slice(0, 10)} /> by {by}
      </>
    ),
  },
  {
    key: 'due',
    head: 'Follow up',
    cell: ({ followUpOn }) =>
      followUpOn === null ? (
        'no day'
      ) : (
        <>
          <Day day={followUpOn} />
          {followUpOn <= today ? <strong> due</strong> : null}
        </>
      ),
  },
  { key: 'note', head: 'Note', cell: ({ note }) => note },
  {
    key: 'act',
    head: 'Open',
    cell: ({ id, caller }) => (
      <Button size="compact-sm" variant="default" aria-label={`Open the inquiry of ${caller}`} onClick={() => choose(id)}>
        Open
      </Button>
    ),
  },
];

const CLOSED: Column<InquiryLine>[] = [
  { key: 'who', head: 'Caller', cell: who },
  { key: 'price', head: 'Price told', align: 'right', cell: ({ totalCents }) => <Money cents={totalCents} /> },
  {
    key: 'outcome',
    head: 'What became of it',
    cell: ({ outcome, outcomeNote }) => [outcome ? INQUIRY_OUTCOMES[outcome] : '', outcomeNote].filter(Boolean).join(': '),
  },
  {
    key: 'job',
    head: 'Job',
    cell: ({ jobId }) =>
      jobId ? (
        <TextLink to="/jobs/$jobId" params={{ jobId }}>
          See the job
        </TextLink>
      ) : (
        'none'
      ),
  },
];

type Count = { outcome: InquiryOutcome | null; count: number; cents: number };
const COUNTS: Column<Count>[] = [
  { key: 'outcome', head: 'What became of them', cell: ({ outcome }) => (outcome ? INQUIRY_OUTCOMES[outcome] : 'still open') },
  { key: 'count', head: 'Inquiries', align: 'right', cell: ({ count }) => count },
  { key: 'cents', head: 'Prices told, together', align: 'right', cell: ({ cents }) => <Money cents={cents} /> },
];

function Outcomes({ counts }: { counts: Count[] }): ReactNode {
  const closed = counts.filter(({ outcome }) => outcome !== null).reduce((sum, { count }) => sum + count, 0);
  const booked = counts.find(({ outcome }) => outcome === 'booked')?.count ?? 0;
  if (counts.length === 0) return null;
  return (
    <Section title="What became of them">
      <p>
        {booked} of {closed} closed inquiries {booked === 1 ? 'was' : 'were'} booked.
      </p>
      <DataTable caption="Inquiries by what became of them" columns={COUNTS} rows={counts} rowKey={({ outcome }) => outcome ?? 'open'} />
    </Section>
  );
}

const REASONS = Object.entries(INQUIRY_OUTCOMES)
  .filter(([key]) => key !== 'booked')
  .map(([value, label]) => ({ value, label }));

function useTyped({ id, followUpOn, note }: InquiryLine) {
  const { values, setValues, draft } = useDraft(
    { followUpOn: followUpOn ?? '', note, outcome: 'price' as InquiryOutcome, outcomeNote: '' },
    `inquiry ${id}`,
  );
  return { values, draft, set: (part: Partial<typeof values>) => setValues((before) => ({ ...before, ...part })) };
}

function OneInquiry({ inquiry, done }: { inquiry: InquiryLine; done: () => void }): ReactNode {
  const { id, version, caller } = inquiry;
  const navigate = useNavigate();
  const full = useQuery(inquiryQuery(id));
  const { values, set, draft } = useTyped(inquiry);
  const { followUpOn, note, outcome, outcomeNote } = values;
  const follow = useSend(followUpInquiry, {
    refresh: ['inquiries'],
    said: 'The day is set.',
    then: done,
    undo: (_, now) => () => followUpInquiry({ id, version: now.version, followUpOn: inquiry.followUpOn, note: inquiry.note }),
  });
  const close = useSend(closeInquiry, { refresh: ['inquiries'], said: 'The inquiry is closed.', then: done });
  return (
    <Section title={`Inquiry of ${caller}`}>
      <ProblemNote of={follow.error ?? close.error ?? full.error} />
      <Kept draft={draft} />
      <ul>
        {full.data?.lines.map((line) => (
          <li key={line.rule}>
            <strong>{line.label}</strong> <Money cents={line.cents} /> {line.reason}
          </li>
        ))}
      </ul>
      <Group align="flex-end" mb="sm">
        <Button onClick={() => void navigate({ to: '/book', search: { inquiry: id } })}>Book it now</Button>
      </Group>
      <Group align="flex-end" mb="sm">
        <TextInput
          label="Follow up on"
          type="date"
          value={followUpOn}
          onChange={(event) => set({ followUpOn: event.currentTarget.value })}
        />
        <TextInput label="Note" value={note} maxLength={500} onChange={(event) => set({ note: event.currentTarget.value })} />
        <Button
          variant="default"
          loading={follow.isPending}
          onClick={() => whileSending(draft, () => follow.mutate({ id, version, followUpOn: followUpOn || null, note }))}
        >
          Set the day
        </Button>
      </Group>
      <Group align="flex-end">
        <NativeSelect
          label="What became of it"
          value={outcome}
          data={REASONS}
          onChange={(event) => set({ outcome: event.currentTarget.value as InquiryOutcome })}
        />
        <TextInput
          label="In words"
          value={outcomeNote}
          maxLength={300}
          onChange={(event) => set({ outcomeNote: event.currentTarget.value })}
        />
        <Button
          variant="default"
          loading={close.isPending}
          onClick={() => whileSending(draft, () => close.mutate({ id, version, outcome, outcomeNote, jobId: null }))}
        >
          Close it
        </Button>
        <Follows>A closed inquiry is not opened again: it stays under Closed and counts there. Booking later goes by a new call.</Follows>
      </Group>
    </Section>
  );
}
