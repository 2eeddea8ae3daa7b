// The text of a step as it is, and revision by revision what changed, who changed it, why, and from which callbacks.
import type { ReactNode } from 'react';
import type { StepPage } from '@backsight/contract/liability/steps';
import { TextLink } from '../../ui/links.tsx';
import { Marked } from '../../ui/Marked.tsx';
import { When } from '../../ui/When.tsx';

type Text = StepPage['text'];
type Change = Text['changes'][number];
const FIELD: Record<string, string> = { title: 'Title', instruction: 'Instruction', why: 'Reason', caution: 'Caution' };

export function StepText({ step: { text } }: { step: StepPage }): ReactNode {
  const [first, ...later] = text.changes;
  return (
    <>
      {text.now.length === 0 ? <p>No revision in force holds this step any more.</p> : null}
      {text.now.map((step) => (
        <details key={step.key} style={{ marginBottom: 'var(--bs-space-4)' }}>
          <summary>{`As it is now: ${step.title}`}</summary>
          {step.caution === null ? null : (
            <p>
              <strong>Caution:</strong> {step.caution}
            </p>
          )}
          <p>{step.instruction}</p>
          <p>
            <small>{`Why: ${step.why}`}</small>
          </p>
        </details>
      ))}
      <ol style={{ paddingInlineStart: 'var(--bs-space-7)' }}>
        {[first, ...later].map((change) =>
          change ? <li key={change.revisionId}>{<Revision change={change} first={change === first} />}</li> : null,
        )}
      </ol>
      {text.unchanged > 0 ? (
        <p>{`${text.unchanged} other ${text.unchanged === 1 ? 'revision' : 'revisions'} of its procedure left it as it was.`}</p>
      ) : null}
    </>
  );
}

/** Of the first revision only that it came: what was added is the whole text. */
const Revision = ({ change, first }: { change: Change; first: boolean }): ReactNode => (
  <>
    <p style={{ margin: '0 0 var(--bs-space-2)' }}>
      <TextLink to="/procedures/revision/$revisionId" params={{ revisionId: change.revisionId }}>{`Revision ${change.number}`}</TextLink>
      {', in force from '}
      <When at={change.inForceFrom} />
      {`, written by ${change.author}${change.approver ? `, approved by ${change.approver}` : ''}. ${change.reason ? `Why: ${change.reason}` : ''}`}
      <Origins actions={change.actions} />
    </p>
    {first ? null : (
      <>
        <ul>
          {change.sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
        {change.reworded.map(({ field, title, marks }) => (
          <p key={title + field}>
            <strong>{`${FIELD[field] ?? field}:`}</strong>{' '}
            {marks.map((mark, at) => (
              <Marked key={at} {...mark} />
            ))}
          </p>
        ))}
      </>
    )}
  </>
);

const Origins = ({ actions }: Pick<Change, 'actions'>): ReactNode =>
  actions.map(({ id, number, callbacks }) => (
    <span key={id}>
      {' Comes from '}
      <TextLink to="/corrective-actions/$actionId" params={{ actionId: id }}>{`corrective action ${number}`}</TextLink>
      {callbacks.map((callback) => (
        <span key={callback.id}>
          {', '}
          <TextLink to="/callbacks/$callbackId" params={{ callbackId: callback.id }}>{`callback ${callback.number}`}</TextLink>
        </span>
      ))}
      .
    </span>
  ));
