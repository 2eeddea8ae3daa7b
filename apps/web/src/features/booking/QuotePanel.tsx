// The price and the time it takes, line by line with the reason of each, while the caller is speaking.
import type { ReactNode } from 'react';
import { FACTS } from '@backsight/domain/shared/facts';
import type { Quote } from '@backsight/contract/jobs';
import { Money } from '../../ui/Money.tsx';
import { minutesText } from '../../ui/minutes.ts';
import classes from './booking.module.css';

/** `discount`: where one is given, under the lines. */
export function QuotePanel({ quote, discount }: { quote: Quote; discount: ReactNode }): ReactNode {
  const { fee, duration } = quote;
  const needed = quote.requirements.filter(({ kind }) => kind === 'kit').flatMap(({ asks: of }) => of);
  const asks = [...new Set([...fee.asks, ...duration.asks, ...needed])].map((key) => FACTS[key].label.toLowerCase());
  const onSite = duration.lines.filter(({ report }) => !report);
  return (
    <section aria-label="Price and time" className={classes.panel}>
      <h2>
        Price{' '}
        <span className={classes.total} role="status">
          <Money cents={fee.totalCents} />
        </span>
      </h2>
      <ul className={classes.lines}>
        {fee.lines.map((line) => (
          <Line key={line.rule} label={line.label} reason={line.reason} assumption={line.assumption}>
            <Money cents={line.cents} />
          </Line>
        ))}
      </ul>
      {discount}
      {quote.laterLooks.length > 0 ? (
        <>
          <h3 className={classes.later}>Not now, offered for later</h3>
          <ul className={classes.lines}>
            {quote.laterLooks.map((look) => (
              <Line key={look.key} label={look.label} reason={look.reason}>
                <Money cents={look.cents} />
              </Line>
            ))}
          </ul>
        </>
      ) : null}
      {fee.assumptions.length > 0 ? (
        <details>
          <summary>
            {fee.assumptions.length} {fee.assumptions.length === 1 ? 'assumption' : 'assumptions'}
          </summary>
          <ul>
            {fee.assumptions.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </details>
      ) : null}
      <h2>
        Time on site <span className={classes.total}>{minutesText(duration.minutes)}</span>
      </h2>
      <details>
        <summary>What takes the time</summary>
        <ul className={classes.lines}>
          {onSite.map((line) => (
            <Line key={line.rule} label={line.label} reason={line.reason} assumption={line.assumption}>
              {line.minutes} min
            </Line>
          ))}
        </ul>
      </details>
      <p className={classes.soft}>
        Writing the report: {minutesText(duration.reportMinutes)}.
        {quote.travelMinutes === null ? '' : ` Driving from the office: ${minutesText(quote.travelMinutes)}.`}
      </p>
      {asks.length > 0 ? <p className={classes.soft}>Worth asking: {asks.join(', ')}.</p> : null}
      <details>
        <summary>What the pair needs, and why</summary>
        <ul>
          {quote.requirements.map(({ rule, reason }) => (
            <li key={rule}>{reason}</li>
          ))}
        </ul>
      </details>
    </section>
  );
}

function Line({
  label,
  reason,
  assumption,
  children,
}: {
  label: string;
  reason: string;
  assumption?: string | undefined;
  children: ReactNode;
}): ReactNode {
  return (
    <li>
      <span>
        <strong>{label}</strong>{' '}
        <span className={classes.soft}>
          {reason}
          {assumption ? `. ${assumption}` : ''}
        </span>
      </span>
      <span className="numbers">{children}</span>
    </li>
  );
}
