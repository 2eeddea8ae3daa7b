// What is different between two revisions, in sentences with marks at the words; both steps beside each other on request.
import type { ReactNode } from 'react';
import type { ComparisonPage, Difference } from '@backsight/contract/procedures';
import { Marked } from '../../ui/Marked.tsx';
import { StepDocument } from './StepDocument.tsx';
import classes from './procedures.module.css';

const FIELD = { title: 'Title', instruction: 'Instruction', why: 'Why', caution: 'Caution' } as const;
const KIND = { added: 'New step', removed: 'Removed step', kept: 'Changed step' } as const;

export function Differences({ of }: { of: ComparisonPage }): ReactNode {
  return (
    <>
      <p>
        <strong>{of.summary}</strong> {of.before ? `Compared with revision ${of.before.number}.` : 'There is no earlier revision.'}
      </p>
      {of.differences.map((difference) => (
        <One key={difference.key} difference={difference} />
      ))}
    </>
  );
}

function One({ difference: { kind, title, sentences, reworded, before, after } }: { difference: Difference }): ReactNode {
  return (
    <section className={classes.difference} aria-label={title}>
      <h3>
        {KIND[kind]}: {title}
      </h3>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      {reworded.map(({ field, marks }) => (
        <div key={field} className={classes.words}>
          <strong>{FIELD[field]}:</strong>{' '}
          {marks.map((mark, at) => (
            <Marked key={at} {...mark} />
          ))}
        </div>
      ))}
      {kind === 'kept' ? (
        <details>
          <summary>Both beside each other</summary>
          <Sides before={before} after={after} />
        </details>
      ) : null}
      {kind === 'added' && after ? <StepDocument of={after} short /> : null}
      {kind === 'removed' && before ? (
        <details>
          <summary>The step as it was</summary>
          <StepDocument of={before} />
        </details>
      ) : null}
    </section>
  );
}

const Sides = ({ before, after }: Pick<Difference, 'before' | 'after'>): ReactNode => (
  <div className={classes.sides}>
    <div>
      <p>
        <strong>Before</strong>
      </p>
      {before ? <StepDocument of={before} /> : null}
    </div>
    <div>
      <p>
        <strong>Now</strong>
      </p>
      {after ? <StepDocument of={after} /> : null}
    </div>
  </div>
);
