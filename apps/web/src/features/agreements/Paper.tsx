// A text as it is, folded away until somebody wants to read it.
import type { ReactNode } from 'react';

export function Paper({ title, body }: { title: string; body: string }): ReactNode {
  return (
    <details style={{ margin: 'var(--bs-space-5) 0' }}>
      <summary style={{ cursor: 'pointer', minHeight: '2.2rem' }}>{title}</summary>
      <div style={{ whiteSpace: 'pre-wrap', overflowWrap: 'anywhere', border: '1px solid var(--bs-line)', padding: 'var(--bs-space-6)' }}>
        {body}
      </div>
    </details>
  );
}
