// What a new agreement says otherwise than the one before it.
import type { ReactNode } from 'react';
import type { AgreementChange } from '@backsight/contract/agreements';

export function Changes({ title, changes }: { title: string; changes: readonly AgreementChange[] }): ReactNode {
  return (
    <section aria-label={title}>
      <h3>{title}</h3>
      {changes.length === 0 ? (
        <p>The words are the same; who signs is not.</p>
      ) : (
        <ul style={{ paddingInlineStart: 'var(--bs-space-7)', overflowWrap: 'anywhere' }}>
          {changes.map(({ was, now }) => (
            <li key={`${was}${now}`} style={{ marginBottom: 'var(--bs-space-4)' }}>
              {was ? (
                <div>
                  Before: <del>{was}</del>
                </div>
              ) : null}
              {now ? (
                <div>
                  Now: <strong>{now}</strong>
                </div>
              ) : null}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
