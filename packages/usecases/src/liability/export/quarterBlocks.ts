// The blocks of the quarterly report, from its facts.
import { SYSTEMS } from '@backsight/domain/callbacks/intakeWords';
import { REMEDIES, REVIEW_RESULTS } from '@backsight/domain/callbacks/words';
import { formatUsd } from '@backsight/domain/shared/money';
import type { Block, Table } from '@backsight/documents/pdf/content';
import type { DevelopmentPage } from '../development/readDevelopment.ts';
import { effectBlocks } from './effectBlocks.ts';
import type { QuarterFacts } from './quarterFacts.ts';

const heading = (words: string): Block => ({ kind: 'heading', level: 2, words });
const text = (words: string): Block => ({ kind: 'text', words });
const table = (heads: string[], rows: string[][], amounts: number[]): Table => ({ kind: 'table', heads, rows, amounts });
const none = (rows: readonly unknown[], said: string, shown: () => Block[]): Block[] => (rows.length === 0 ? [text(said)] : shown());
/** Whole dollars above a bar, where cents have no room. */
const short = (cents: number): string => formatUsd(Math.round(cents / 100) * 100).replace(/\.00$/, '');
const sumOf = <T>(rows: readonly T[], of: (row: T) => number): number => rows.reduce((sum, row) => sum + of(row), 0);

const moneyBlocks = ({ money, moneyBefore, ever, until }: QuarterFacts): Block[] => [
  heading('Money'),
  table(
    ['', 'This quarter', 'Same quarter a year before', `Ever, until ${until}`],
    (
      [
        ['Paid', 'paidCents'],
        ['Set aside, or released below 0', 'reservedCents'],
        ['Recovered', 'recoveredCents'],
        ['Paid and set aside, less recovered', 'incurredCents'],
      ] as const
    ).map(([name, key]) => [name, formatUsd(money[key]), formatUsd(moneyBefore[key]), formatUsd(ever[key])]),
    [1, 2, 3],
  ),
];

const callbackBlocks = ({ received, receivedBefore, open, closed, until }: QuarterFacts): Block[] => [
  heading('Callbacks'),
  {
    kind: 'facts',
    pairs: [
      ['Came in', `${sumOf(received, (row) => row.callbacks)} (a year before: ${sumOf(receivedBefore, (row) => row.callbacks)})`],
      ['Closed', String(closed)],
      [`Open on ${until}`, String(open)],
    ],
  },
  ...none(received, 'None came in.', () => [
    table(
      ['About', 'Callbacks'],
      received.map(({ system, callbacks }) => [SYSTEMS[system as keyof typeof SYSTEMS] ?? system, String(callbacks)]),
      [1],
    ),
  ]),
  { kind: 'text', small: true, words: 'Questions, near-misses and what was reported twice are not counted.' },
];

const decisionBlocks = ({ decisions }: QuarterFacts): Block[] => [
  heading('Decisions on remedies'),
  ...none(decisions, 'None was decided.', () => [
    table(
      ['Remedy', 'Decided', 'Times', 'Amount'],
      decisions.map(({ kind, decision, times, cents }) => [
        REMEDIES[kind as keyof typeof REMEDIES] ?? kind,
        decision,
        String(times),
        formatUsd(cents),
      ]),
      [2, 3],
    ),
  ]),
];

/** Newest quarters of inspection with a bar each: known, and as an outline what is expected on top. */
const SHOWN = 10;

function developmentBlocks(page: DevelopmentPage | null, name: string, say: (value: number) => string): Block[] {
  if (!page) return [];
  const shown = page.origins.slice(-SHOWN);
  const title = `${name} by quarter of inspection`;
  const rows = shown.map(({ name: quarter, jobs, latest, outlook }) => [
    quarter,
    jobs.toLocaleString('en-US'),
    say(latest),
    outlook ? say(outlook.unreported) : 'cannot be told',
  ]);
  const { estimate } = page;
  return [
    { kind: 'heading', level: 3, words: title },
    ...none(shown, 'Nothing was inspected yet.', () => [
      {
        kind: 'bars',
        alt: `${title}; the table below holds the same figures. ${rows.map(([quarter, , known, more]) => `${quarter}: ${known}, still expected ${more}`).join('; ')}.`,
        bars: shown.map(({ name: label, latest, outlook }) => ({
          label,
          value: latest,
          more: Math.max(0, outlook?.unreported ?? 0),
          says: say(latest),
        })),
      },
      { kind: 'text', small: true, words: 'Full, and the number: known. Outline: expected on top, where it can be told.' },
      table(['Inspected in', 'Jobs', 'Known', 'Still expected'], rows, [1, 2, 3]),
    ]),
    text(
      estimate.ok
        ? `Still expected of all work done by then: ${say(estimate.totals.unreported)}${estimate.totals.range ? `, likely between ${say(estimate.totals.range.lower)} and ${say(estimate.totals.range.upper)}` : ''}.`
        : estimate.sentence,
    ),
  ];
}

const stepBlocks = ({ steps }: QuarterFacts): Block[] => [
  heading('Traced steps'),
  ...none(steps, 'No callback was traced to a step.', () => [
    table(
      ['Step', 'Callbacks traced to it in this quarter'],
      steps.map(({ title, traced }) => [title, String(traced)]),
      [1],
    ),
    { kind: 'text', small: true, words: "A callback found is a procedure's failure first. Few say little: see the page of each step." },
  ]),
];

const EVENTS: Record<string, string> = {
  decided: 'decided',
  done: 'done',
  dropped: 'dropped',
  recurred: 'the step failed again: opened again',
};

const actionBlocks = ({ actions, effects, until }: QuarterFacts): Block[] => [
  heading('Changes, and whether they worked'),
  ...none(actions, 'No corrective action was decided, done or reviewed.', () => [
    table(
      ['Action', 'Day', 'What happened'],
      actions.map(({ number, title, event, day, result }) => [
        `${number}: ${title}`,
        day,
        event === 'reviewed'
          ? `reviewed: ${REVIEW_RESULTS[result as keyof typeof REVIEW_RESULTS] ?? 'no result'}`
          : (EVENTS[event] ?? event),
      ]),
      [],
    ),
  ]),
  ...effectBlocks(effects, until),
];

/** Months ahead: where the last one ends with the quarter, nothing more of it lies ahead. */
const ahead = ({ windows: { closing }, until, running }: QuarterFacts) =>
  closing.filter(({ month }) => running || month > until.slice(0, 7)).slice(0, 3);

const windowBlocks = (facts: QuarterFacts): Block[] => {
  const {
    windows: { total, withoutRule },
    until,
  } = facts;
  return [
    heading('Claim windows'),
    text(
      `On ${until} windows were open for ${total.jobs.toLocaleString('en-US')} jobs by the long reading of the rules${withoutRule > 0 ? `; for ${withoutRule} nobody can say` : ''}. These close in the months ahead:`,
    ),
    table(
      ['Month', 'Jobs, long reading', 'Jobs, short reading'],
      ahead(facts).map(({ month, short: early, long }) => [month, String(long.jobs), String(early.jobs)]),
      [1, 2],
    ),
  ];
};

const CAUTIONS = [
  'Not an actuarial opinion. What is expected rests on how callbacks and their cost grew so far, and few cases make it rough.',
  'Figures are those that were recorded when this was made; what is recorded later for these days is not in it.',
  'How long claims may be brought is read from the rules on file; ask the attorney of the firm before relying on a day.',
  'Amounts set aside and causes are opinions and may be asked for in a dispute: keep this paper where such papers are kept.',
];

export const quarterBlocks = (facts: QuarterFacts): Block[] => [
  ...(facts.running ? [{ kind: 'notice', words: `This quarter still runs: figures until ${facts.until}.` } as const] : []),
  ...moneyBlocks(facts),
  ...callbackBlocks(facts),
  ...decisionBlocks(facts),
  heading('Development'),
  ...developmentBlocks(facts.callbacks, 'Callbacks', (value) => value.toLocaleString('en-US', { maximumFractionDigits: 1 })),
  ...developmentBlocks(facts.incurred, 'Paid and set aside, less recovered', short),
  ...stepBlocks(facts),
  ...actionBlocks(facts),
  ...windowBlocks(facts),
  heading('Cautions'),
  { kind: 'list', from: null, items: CAUTIONS.map((caution) => [text(caution)]) },
];
