// One version of the report, for one system or whole.
import type { ReactNode } from 'react';
import type { CallbackEvidence } from '@backsight/contract/callbacks';
import { Day } from '../../ui/When.tsx';
import { dayText } from '../../ui/time.ts';

export function Reported({ report: r, system }: { report: CallbackEvidence['reports'][number]; system: string | null }): ReactNode {
  const of = (name: string): boolean => system === null || name === system;
  const summary = r.summary.filter((s) => of(s.system));
  const lines = r.systems.filter((s) => of(s.system)).flatMap((s) => s.lines);
  const left = r.notInspected.filter((n) => of(n.system));
  const drafted = r.systems.length > 0 || r.notInspected.length > 0;
  return (
    <div>
      <p>
        {`Version ${r.version}: inspected ${dayText(r.inspectedOn)}, completed ${dayText(r.completedOn)}, `}
        {r.deliveredOn ? (
          <>
            handed over <Day day={r.deliveredOn} />
          </>
        ) : (
          'not handed over'
        )}
      </p>
      {drafted ? null : <p>This version was taken in as a file: open it from the job.</p>}
      {summary.length > 0 ? (
        <>
          <strong>Defects</strong>
          <ul>
            {summary.map((s, at) => (
              <li key={at}>{s.text}</li>
            ))}
          </ul>
        </>
      ) : null}
      {lines.length > 0 ? (
        <ul>
          {lines.map((l, at) => (
            <li key={at}>{`${l.title}${l.item ? ` (${l.item})` : ''}: ${l.answer}${l.note ? `. ${l.note}` : ''}`}</li>
          ))}
        </ul>
      ) : null}
      {left.length > 0 ? (
        <>
          <strong>Not inspected</strong>
          <ul>
            {left.map((n, at) => (
              <li key={at}>{`${n.title}${n.item ? ` (${n.item})` : ''}: ${n.why}`}</li>
            ))}
          </ul>
        </>
      ) : null}
    </div>
  );
}
