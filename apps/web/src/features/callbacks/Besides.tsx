// What the pair did besides the steps, as far as it bears on what is shown: in order, with who and when. It stands open when it was at the place that the callback is about.
import type { ReactNode } from 'react';
import type { CallbackEvidence } from '@backsight/contract/callbacks';
import { When } from '../../ui/When.tsx';

export function Besides({ acts }: { acts: CallbackEvidence['acts'] }): ReactNode {
  if (acts.length === 0) return null;
  return (
    <details open={acts.some(({ atPlace }) => atPlace)}>
      <summary>Besides the steps ({acts.length})</summary>
      <ol style={{ paddingInlineStart: 'var(--bs-space-8)', marginTop: 'var(--bs-space-2)' }}>
        {acts.map(({ id, what, words, by, writtenBy, at, atPlace }) => (
          <li key={id} style={{ marginBottom: 'var(--bs-space-2)' }}>
            <strong>{what}</strong>
            {atPlace ? ' (at the place of the callback)' : ''}: {words}{' '}
            <small>
              {`${by}${writtenBy === by ? '' : `, written by ${writtenBy}`}, `}
              <When at={at} />
            </small>
          </li>
        ))}
      </ol>
    </details>
  );
}
