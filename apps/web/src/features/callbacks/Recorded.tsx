// The steps of the job's package with every entry, replaced ones too.
import type { ReactNode } from 'react';
import type { CallbackEvidence } from '@backsight/contract/callbacks';
import { When } from '../../ui/When.tsx';

type Step = CallbackEvidence['steps'][number];
const MATCHES: Record<string, string> = { outside: ' · outside the usual range', differs: ' · the counts differ' };

export function Recorded({ steps }: { steps: readonly Step[] }): ReactNode {
  return (
    <ul style={{ paddingLeft: '1.1rem' }}>
      {steps.map((step) => (
        <li key={`${step.stepKey}-${step.item}-${step.packageNumber}`} style={{ marginBottom: '0.6rem' }}>
          <strong>{step.title}</strong>
          {step.item ? `, ${step.item}` : ''}{' '}
          <small>{`revision ${step.revisionNumber}, package ${step.packageNumber}${step.partnerCheck ? ', both of the pair' : ''}`}</small>
          {step.entries.length === 0 ? <div>Nothing recorded</div> : step.entries.map((entry) => <Entry key={entry.id} entry={entry} />)}
          <details>
            <summary>What the step asks</summary>
            <p>{step.instruction}</p>
            {step.caution ? <p>{`Caution: ${step.caution}`}</p> : null}
          </details>
        </li>
      ))}
    </ul>
  );
}

function Entry({ entry: e }: { entry: Step['entries'][number] }): ReactNode {
  const words = `${e.answer}${MATCHES[e.match] ?? ''}${e.note ? `. ${e.note}` : ''}`;
  return (
    <div>
      {e.superseded ? <s>{words}</s> : words}{' '}
      <small>
        {`${e.observedBy}${e.writtenBy === e.observedBy ? '' : `, written by ${e.writtenBy}`}, ${e.observedApprox ? 'about ' : ''}`}
        <When at={e.observedAt} />
        {e.superseded ? ' (replaced later)' : ''}
        {e.correction ? ` (correction: ${e.correction})` : ''}
      </small>
    </div>
  );
}
