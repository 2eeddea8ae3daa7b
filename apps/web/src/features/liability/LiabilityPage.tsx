// The owner's page: what callbacks cost, what is open, what waits, and for how long claims may come.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { REMEDIES, STATES } from '@backsight/contract/callbacks';
import type { Liability } from '@backsight/contract/liability';
import { liabilityQuery } from '../../api/liability.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Details } from '../../ui/Details.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink, TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';

type Sum = { when: string; paidCents: number; reservedCents: number; recoveredCents: number; incurredCents: number };
const MONEY: Column<Sum>[] = [
  { key: 'when', head: 'When it happened', cell: (s) => s.when },
  { key: 'paid', head: 'Paid', align: 'right', cell: (s) => <Money cents={s.paidCents} /> },
  { key: 'reserved', head: 'Set aside or released', align: 'right', cell: (s) => <Money cents={s.reservedCents} /> },
  { key: 'recovered', head: 'Recovered', align: 'right', cell: (s) => <Money cents={s.recoveredCents} /> },
  { key: 'incurred', head: 'Paid and set aside, less recovered', align: 'right', cell: (s) => <Money cents={s.incurredCents} /> },
];
const MONTH = new Intl.DateTimeFormat('en-US', { month: 'long', year: 'numeric', timeZone: 'UTC' });
const MONTHS: Column<Liability['months'][number]>[] = [
  { key: 'month', head: 'Inspected in', cell: (m) => (m.month ? MONTH.format(new Date(`${m.month}-15T12:00:00Z`)) : 'not inspected') },
  { key: 'jobs', head: 'Jobs', align: 'right', cell: (m) => m.jobs },
  { key: 'callbacks', head: 'Callbacks', align: 'right', cell: (m) => m.callbacks },
  { key: 'paid', head: 'Paid', align: 'right', cell: (m) => <Money cents={m.paidCents} /> },
  { key: 'reserved', head: 'Set aside', align: 'right', cell: (m) => <Money cents={m.reservedCents} /> },
  { key: 'recovered', head: 'Recovered', align: 'right', cell: (m) => <Money cents={m.recoveredCents} /> },
  { key: 'incurred', head: 'Paid and set aside, less recovered', align: 'right', cell: (m) => <Money cents={m.incurredCents} /> },
];
const OPEN: Column<Liability['open'][number]>[] = [
  { key: 'state', head: 'State', cell: (o) => STATES[o.state as keyof typeof STATES] ?? o.state },
  { key: '7', head: 'Up to 7 days', align: 'right', cell: (o) => o.upTo7 },
  { key: '30', head: '8 to 30 days', align: 'right', cell: (o) => o.upTo30 },
  { key: '90', head: '31 to 90 days', align: 'right', cell: (o) => o.upTo90 },
  { key: 'older', head: 'Older', align: 'right', cell: (o) => o.older },
];

export function LiabilityPage(): ReactNode {
  const { data, error, isPending } = useQuery(liabilityQuery);
  return (
    <Page
      title="Liabilities"
      about="Counted from the ledger, to the cent. Not an actuarial opinion."
      actions={
        <>
          <ButtonLink to="/liabilities/steps" variant="default">
            Figures of the steps
          </ButtonLink>
          <ButtonLink to="/callback-answers" variant="default">
            How clients say we handled it
          </ButtonLink>
        </>
      }
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Content data={data} /> : null}
    </Page>
  );
}

const count = (n: number, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

function Content({ data }: { data: Liability }): ReactNode {
  const sums: Sum[] = [
    { when: 'This month', ...data.money.month },
    { when: 'This year', ...data.money.year },
    { when: 'Since the start', ...data.money.ever },
  ];
  const { shortOpen, longOpen, unknown, sources } = data.windows;
  const open = data.open.reduce((sum, o) => sum + o.upTo7 + o.upTo30 + o.upTo90 + o.older, 0);
  const proposed = data.waiting.reduce((sum, w) => sum + w.cents, 0);
  return (
    <>
      <Section title="Now">
        <Details
          rows={[
            [
              'Set aside',
              <strong>
                <Money cents={data.money.ever.reservedCents} />
              </strong>,
            ],
            [
              'Open callbacks',
              <>
                <strong>{open}</strong> <TextLink to="/callbacks">See them</TextLink>
              </>,
            ],
            [
              'Waiting for approval',
              data.waiting.length === 0 ? (
                'nothing'
              ) : (
                <>
                  <strong>
                    <Money cents={proposed} />
                  </strong>
                  {` in ${count(data.waiting.length, 'remedy', 'remedies')}`}
                </>
              ),
            ],
          ]}
        />
      </Section>
      <Section title="Money of callbacks">
        <DataTable caption="Money of callbacks" columns={MONEY} rows={sums} rowKey={(s) => s.when} />
      </Section>
      <Section title="Remedies waiting for approval">
        {data.waiting.length === 0 ? (
          <p>None waits.</p>
        ) : (
          <ul>
            {data.waiting.map((w) => (
              <li key={w.remedyId}>
                <TextLink to="/callbacks/$callbackId" params={{ callbackId: w.callbackId }}>{`Callback ${w.number}`}</TextLink>
                {`: ${REMEDIES[w.kind as keyof typeof REMEDIES] ?? w.kind} `}
                <Money cents={w.cents} />
                {`, proposed by ${w.proposer}, `}
                <When at={w.recordedAt} />
              </li>
            ))}
          </ul>
        )}
      </Section>
      <Section title="Open callbacks">
        {data.open.length === 0 ? (
          <Empty>Nothing is open.</Empty>
        ) : (
          <DataTable caption="Open callbacks by state and age" columns={OPEN} rows={data.open} rowKey={(o) => o.state} />
        )}
      </Section>
      <Section title="By month of inspection">
        {data.months.length === 0 ? (
          <Empty>No job has been inspected yet.</Empty>
        ) : (
          <DataTable caption="Callbacks by month of inspection" columns={MONTHS} rows={data.months} rowKey={(m) => m.month} />
        )}
      </Section>
      <Section title="What may still come">
        <Details
          rows={[
            [
              'Claim window open',
              `${count(shortOpen, 'job', 'jobs')} by the short reading, ${longOpen} by the long one${unknown > 0 ? `; ${count(unknown, 'job', 'jobs')} without a rule` : ''}`,
            ],
            ['Where that is from', sources.join('; ') || 'no rule pack on file'],
            ['Started despite the gate', `${count(data.despite.overrides, 'override', 'overrides')} this year`],
            ['Started without a signature', `${count(data.despite.unsignedStarts, 'inspection', 'inspections')} this year`],
          ]}
        />
      </Section>
    </>
  );
}
