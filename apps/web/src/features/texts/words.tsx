// What is said of an agreement text wherever it is shown.
import type { ReactNode } from 'react';
import type { RuleBreakShown, TextLine } from '@backsight/contract/agreementTexts';
import { Day, When } from '../../ui/When.tsx';

/** Where the text stands: draft, in force, superseded, to come, withdrawn. */
export function Standing({ text }: { text: TextLine }): ReactNode {
  if (text.state === 'draft')
    return <>A draft{text.author ? ` by ${text.author}` : ''}; it counts for nothing until somebody else approves it.</>;
  if (text.state === 'withdrawn')
    return (
      <>
        Withdrawn <When at={text.withdrawnAt!} />.
      </>
    );
  const verb = text.inForce
    ? 'In force since'
    : Date.parse(text.inForceFrom!) > Date.now()
      ? 'In force from'
      : 'Superseded; it came into force';
  return (
    <>
      {verb} <When at={text.inForceFrom!} />
      {text.approver ? `, approved by ${text.approver}` : ''}.
    </>
  );
}

export function Review({ text }: { text: TextLine }): ReactNode {
  return text.attorney && text.attorneyOn ? (
    <>
      Reviewed by {text.attorney} on <Day day={text.attorneyOn} />.
    </>
  ) : (
    <>
      <strong>An example that no attorney has reviewed.</strong> Every agreement made from it says so.
    </>
  );
}

/** The rows of state rules that a text goes against; nothing when there are none. */
export function Breaks({ breaks }: { breaks: readonly RuleBreakShown[] }): ReactNode {
  if (breaks.length === 0) return null;
  return (
    <div role="note">
      <p>
        <strong>Goes against rules of a state.</strong> An owner may approve it so, with the reason.
      </p>
      <ul>
        {breaks.map(({ jurisdiction, state, rowKey, sentence }) => (
          <li key={`${jurisdiction} ${rowKey}`}>
            {state}, row {rowKey}: {sentence}
          </li>
        ))}
      </ul>
    </div>
  );
}
