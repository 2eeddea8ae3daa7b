// The numbers on top of the owner's page, and how the estimates among them were made.
import type { ReactNode } from 'react';
import type { CashEstimate, MoneyEstimate, OwnerPage } from '@backsight/contract/liability/owner';
import { shortUsd } from '@backsight/domain/shared/money';
import { TextLink } from '../../ui/links.tsx';
import { counted, shortDay } from './monthWords.ts';
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
    : 'why not is told below';
const estimated = (of: MoneyEstimate): string => (of.ok ? `about ${about(of.cents)}` : 'not known');

const often = (of: CashEstimate): string => (of.ok ? `about ${of.ofTen} of 10 times` : '');

/** What is owed, what will probably be owed, until when, and what waits; then what leaves soon and how it went. */
export function OwnerKeys({ data }: { data: OwnerPage }): ReactNode {
  return (
    <section aria-label="Now">
      <dl className={classes.keys}>
        <Owed data={data} />
        <Ahead data={data} />
      </dl>
      <Methods data={data} />
    </section>
  );
}

function Owed({ data: { money, open, toCome, windows, waiting, conclusions } }: { data: OwnerPage }): ReactNode {
  const callbacks = open.reduce((sum, o) => sum + o.upTo7 + o.upTo30 + o.upTo90 + o.older, 0);
  const asked = waiting.filter(({ state }) => state === 'proposed');
  const decisions = asked.length + conclusions.length;
  return (
    <>
      <Key name="Set aside now" number={<TextLink to="/liabilities/cash">{shortUsd(money.ever.reservedCents)}</TextLink>}>
        {callbacks === 0 ? 'nothing is open' : <Open callbacks={callbacks} older={open.reduce((sum, o) => sum + o.older, 0)} />}
      </Key>
      <Key name="Still to come, of work done" number={<TextLink to="/liabilities/development">{estimated(toCome)}</TextLink>}>
        {range(toCome, 'in about 3 of 4 cases')}
      </Key>
      <Key
        name="Claims may come until"
        number={<TextLink to="/liabilities/windows">{windows.last.long === null ? 'none is open' : shortDay(windows.last.long)}</TextLink>}
      >
        {windows.last.short === null
          ? counted(windows.jobs, 'job')
          : `${counted(windows.jobs, 'job')}; by the shortest reading ${windows.shortJobs.toLocaleString('en-US')}, until ${shortDay(windows.last.short)}`}
        {windows.withoutRule > 0 ? `; ${windows.withoutRule.toLocaleString('en-US')} more without a rule on file` : ''}
      </Key>
      <Key name="Waiting for a decision" number={decisions === 0 ? 0 : <a href="#waiting">{decisions}</a>}>
        {asked.length === 0
          ? 'no money asked for'
          : `${shortUsd(asked.reduce((sum, { cents }) => sum + cents, 0))} in ${counted(asked.length, 'remedy', 'remedies')}`}
      </Key>
    </>
  );
}

const Open = ({ callbacks, older }: { callbacks: number; older: number }): ReactNode => (
  <>
    {'for '}
    <TextLink to="/liabilities/open-callbacks">{counted(callbacks, 'open callback')}</TextLink>
    {older === 0 ? ', none older than 90 days' : `, ${older} older than 90 days`}
  </>
);

const Ahead = ({ data: { cash, money } }: { data: OwnerPage }): ReactNode => (
  <>
    <Key name="Cash in the next 30 days" number={<TextLink to="/liabilities/cash">{estimated(cash.days30)}</TextLink>}>
      {range(cash.days30, often(cash.days30))}
    </Key>
    <Key name="Cash in the next 90 days" number={<TextLink to="/liabilities/cash">{estimated(cash.days90)}</TextLink>}>
      {range(cash.days90, often(cash.days90))}
    </Key>
    <Key
      name="Paid this year"
      number={
        <TextLink to="/liabilities/entries" search={money.year.days}>
          {shortUsd(money.year.now.paidCents)}
        </TextLink>
      }
    >
      {`${shortUsd(money.year.before.paidCents)} to this day last year`}
    </Key>
    <Key
      name="Came back this year"
      number={
        <TextLink to="/liabilities/entries" search={money.year.days}>
          {shortUsd(money.year.now.recoveredCents)}
        </TextLink>
      }
    >
      {`${shortUsd(money.year.before.recoveredCents)} to this day last year`}
    </Key>
  </>
);

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
