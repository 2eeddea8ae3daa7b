// A drafted report as it reads: defects first, then by system, then what was not inspected and why.
import type { ReactNode } from 'react';
import type { Report } from '@backsight/contract/sitework/reports';
import classes from './sitework.module.css';

export function ReportBody({ body }: { body: NonNullable<Report['body']> }): ReactNode {
  return (
    <details className={classes.more}>
      <summary>Read it</summary>
      <h3>Summary of defects</h3>
      {body.summary.length === 0 ? (
        <p>None was noted.</p>
      ) : (
        <ul>
          {body.summary.map((s, at) => (
            <li key={at}>
              {s.system ? `${s.system}: ` : ''}
              {s.text}
            </li>
          ))}
        </ul>
      )}
      {body.systems.map(({ system, lines }) => (
        <div key={system}>
          <h3>{system}</h3>
          <ul>
            {lines.map((l, at) => (
              <li key={at}>
                {l.title}
                {l.item ? ` (${l.item})` : ''}: {l.answer}
                {l.note ? `. ${l.note}` : ''}
              </li>
            ))}
          </ul>
        </div>
      ))}
      <h3>Not inspected, and why</h3>
      {body.notInspected.length === 0 ? (
        <p>Nothing was left out.</p>
      ) : (
        <ul>
          {body.notInspected.map((n, at) => (
            <li key={at}>
              {n.title}
              {n.item ? ` (${n.item})` : ''}: {n.why}
            </li>
          ))}
        </ul>
      )}
    </details>
  );
}
