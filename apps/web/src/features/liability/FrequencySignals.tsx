// What calls for a look: each in a sentence that begins with how sure it is, with the way to its figures.
import type { ReactNode } from 'react';
import { ALPHA, GROUP_WORDS, type Frequency, type MonthChart } from '@backsight/contract/liability/frequency';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import classes from './Frequency.module.css';
import type { SpanChosen } from './SpanForm.tsx';

type Props = { data: Frequency; span: SpanChosen };

export function FrequencySignals({ data, span }: Props): ReactNode {
  if (data.months.every(({ jobs }) => jobs === 0)) return null;
  const ofMonths = data.chart.ok ? data.chart.points.flatMap((point) => pointSentences(point, data.chart as MonthChart)) : [];
  return (
    <Section title="What differs by more than chance">
      {ofMonths.length + data.signals.length === 0 ? <p>Nothing does.</p> : null}
      <ul className={classes.signals}>
        {ofMonths.map((sentence) => (
          <li key={sentence}>
            {sentence}{' '}
            <TextLink to="/liabilities/frequency" search={{ ...span, by: 'month' }}>
              By month
            </TextLink>
          </li>
        ))}
        {data.signals.map(({ by, value, sentence }) => (
          <li key={`${by} ${value}`}>
            {sentence}{' '}
            <TextLink to="/liabilities/frequency" search={{ ...span, by }}>
              By {GROUP_WORDS[by].title.toLowerCase()}
            </TextLink>
          </li>
        ))}
      </ul>
      <details className={classes.how}>
        <summary>What is compared, and from when on a difference is told</summary>
        <p>
          {`${data.compared}${data.comparisons > 0 ? ` ${data.comparisons} comparisons are made at once; each p is corrected for all of them (Benjamini and Hochberg), and a difference is told from an adjusted p of ${ALPHA} down.` : ''}`}
        </p>
      </details>
    </Section>
  );
}

const one = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 1 });

function pointSentences({ value, lower, upper, signals }: MonthChart['points'][number], { kind }: MonthChart): string[] {
  const what = kind === 'u' ? 'callbacks per 100 jobs' : 'jobs from one callback to the next';
  const usual = upper === null ? '' : `Chance alone gives ${one(lower ?? 0)} to ${one(upper)} ${what}. `;
  return signals.map(({ sentence }) => `${usual}${sentence.replace(/\.$/, '')}${value === null ? '' : ` (${one(value)})`}.`);
}
