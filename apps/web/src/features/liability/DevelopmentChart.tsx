// The same as lines: each period of inspection as it grew with age, and as it is expected to go on.
import type { ReactNode } from 'react';
import type { Development } from '@backsight/contract/liability/development';
import { DevelopmentLines } from '../../ui/charts/DevelopmentLines.tsx';
import { Section } from '../../ui/Section.tsx';
import { amount, COUNTED, short } from './developmentWords.ts';

/** More lines than these cannot be told apart. */
const MOST_LINES = 10;

export function DevelopmentChart({ data: { origins, of, by, estimate } }: { data: Development }): ReactNode {
  const drawn = origins.filter(({ cells, jobs }) => jobs > 0 || cells.some((cell) => cell !== 0)).slice(-MOST_LINES);
  if (drawn.length === 0) return null;
  const scale = of === 'callbacks' ? 1 : 100;
  const left = origins.length - drawn.length;
  const highest = drawn.reduce((most, origin) => (origin.latest > most.latest ? origin : most));
  const title = `Most is known of ${highest.name}: ${amount(of, highest.latest)}${
    estimate.ok ? `; ${amount(of, estimate.totals.unreported)} more are expected of all together` : ''
  }`;
  const which = drawn.length === 1 ? `one ${by}` : `the newest ${drawn.length} ${by}s`;
  const summary = `${COUNTED[of]} by age, ${which} of inspection${left > 0 ? ` of ${origins.length}` : ''}.`;
  return (
    <Section title="As it grew">
      <DevelopmentLines
        title={title}
        summary={summary}
        lineName="Inspected in"
        xName={`Age in ${by}s`}
        yName={of === 'callbacks' ? 'Callbacks' : 'Dollars'}
        format={(value) => (of === 'callbacks' ? short(of, value) : value.toLocaleString('en-US', { maximumFractionDigits: 0 }))}
        lines={drawn.map(({ name, cells, outlook }) => ({
          name,
          known: cells.map((cell, at) => ({ age: at + 1, value: cell / scale })),
          expected: (outlook?.projected ?? []).map((value, at) => ({ age: cells.length + 1 + at, value: value / scale })),
        }))}
      />
    </Section>
  );
}
