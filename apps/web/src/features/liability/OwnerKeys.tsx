// The numbers on top of the owner's page, and how the estimates among them were made.
import type { ReactNode } from 'react';
import type { MoneyEstimate, OwnerPage } from '@backsight/contract/liability/owner';
import { shortUsd } from '@backsight/domain/shared/money';
import { TextLink } from '../../ui/links.tsx';
import { counted } from './monthWords.ts';
import classes from './Owner.module.css';

/** Whole dollars: an estimate does not know the cents. */
const about = (cents: number): string => shortUsd(Math.round(cents / 100) * 100);

function Key({ name, number, children }: { name: string; number: ReactNode; children: ReactNode }): ReactNode {
  return (
    <div className={classes.key}>
      <dt>{name}</dt>
      <dd>
        <span className={classes.number}>{number}</span>
        <span className={classes.note}>{children}</span>
      </dd>
    </div>
  );
}

const range = (of: MoneyEstimate, often: string): ReactNode =>
  of.ok
    ? of.lower === null || of.upper === null
      ? 'no range can be given; see below'
      : `${often} ${about(of.lower)} to ${about(of.upper)}`
    : of.sentence;
const estimated = (of: MoneyEstimate): string => (of.ok ? `about ${about(of.cents)}` : 'not known');

export function OwnerKeys({ data }: { data: OwnerPage }): ReactNode {
  const open = data.open.reduce((sum, o) => sum + o.upTo7 + o.upTo30 + o.upTo90 + o.older, 0);
  const older = data.open.reduce((sum, o) => sum + o.older, 0);
  const asked = data.waiting.filter(({ state }) => state === 'proposed');
  const decisions = asked.length + data.conclusions.length;
  return (
    <section aria-label="Now">
      <dl className={classes.keys}>
        <Key name="Set aside now" number={<TextLink to="/liabilities/cash">{shortUsd(data.money.ever.reservedCents)}</TextLink>}>
          for callbacks that are open
        </Key>
        <Key name="Still to come, of work done" number={<TextLink to="/liabilities/development">{estimated(data.toCome)}</TextLink>}>
          {range(data.toCome, 'in about 3 of 4 cases')}
        </Key>
        <Key name="Cash in the next 30 days" number={<TextLink to="/liabilities/cash">{estimated(data.cash.days30)}</TextLink>}>
          {range(data.cash.days30, 'about 8 of 10 times')}
        </Key>
        <Key name="Cash in the next 90 days" number={<TextLink to="/liabilities/cash">{estimated(data.cash.days90)}</TextLink>}>
          {range(data.cash.days90, 'about 8 of 10 times')}
        </Key>
        <Key name="Open callbacks" number={<TextLink to="/liabilities/open-callbacks">{open}</TextLink>}>
          {older === 0 ? 'none older than 90 days' : `${older} older than 90 days`}
        </Key>
        <Key name="Waiting for a decision" number={decisions === 0 ? 0 : <a href="#waiting">{decisions}</a>}>
          {asked.length === 0
            ? 'no money asked for'
            : `${shortUsd(asked.reduce((sum, { cents }) => sum + cents, 0))} in ${counted(asked.length, 'remedy', 'remedies')}`}
        </Key>
        <Key
          name="Paid this year"
          number={
            <TextLink to="/liabilities/entries" search={data.money.year.days}>
              {shortUsd(data.money.year.now.paidCents)}
            </TextLink>
          }
        >
          {`${shortUsd(data.money.year.before.paidCents)} to this day last year`}
        </Key>
        <Key
          name="Claim windows open"
          number={<TextLink to="/liabilities/windows">{data.windows.shortJobs.toLocaleString('en-US')}</TextLink>}
        >
          {`jobs by the shortest reading, ${data.windows.jobs.toLocaleString('en-US')} by the longest`}
        </Key>
      </dl>
      <Methods data={data} />
    </section>
  );
}

const Methods = ({ data: { toCome, cash } }: { data: OwnerPage }): ReactNode => (
  <details className={classes.how}>
    <summary>How the estimates are made</summary>
    <dl className={classes.methods}>
      <dt>Still to come, of work done</dt>
      <dd>{toCome.ok ? toCome.method : toCome.sentence}</dd>
      <dt>Cash in the next 30 days</dt>
      <dd>{cash.days30.ok ? cash.days30.method : cash.days30.sentence}</dd>
      <dt>Cash in the next 90 days</dt>
      <dd>{cash.days90.ok ? cash.days90.method : cash.days90.sentence}</dd>
    </dl>
  </details>
);
