// The pair as it stood on the day of the visit: licenses in force or not, and the revisions that each had acknowledged by then.
import type { ReactNode } from 'react';
import type { CallbackBackground } from '@backsight/contract/callbacks/background';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';

type Member = CallbackBackground['pair'][number];

export function PairThen({ around: { pair, day } }: { around: CallbackBackground }): ReactNode {
  return (
    <Section title="Who was there">
      {pair.length === 0 ? <p>Nobody of the firm was at the property.</p> : null}
      {pair.map((member) => (
        <div key={member.name} style={{ marginBottom: 'var(--bs-space-5)' }}>
          <p>
            <strong>{member.name}</strong> ({member.places.join(', ')})
          </p>
          <Licenses member={member} day={day} />
          <Acknowledged member={member} />
        </div>
      ))}
    </Section>
  );
}

function Licenses({ member: { licenses }, day }: { member: Member; day: string | null }): ReactNode {
  const held = licenses.filter(({ inForce }) => inForce);
  const others = licenses.filter(({ inForce }) => !inForce);
  return (
    <>
      {held.length === 0 ? <p>{day ? 'No license was in force on that day.' : 'The day of the visit is not known.'}</p> : null}
      {held.map((one) => (
        <License key={one.number + one.fromDay} of={one} />
      ))}
      {others.length > 0 ? (
        <details>
          <summary>{`Not in force on that day (${others.length})`}</summary>
          {others.map((one) => (
            <License key={one.number + one.fromDay} of={one} />
          ))}
        </details>
      ) : null}
    </>
  );
}

const License = ({ of: l }: { of: Member['licenses'][number] }): ReactNode => (
  <p>
    {`License ${l.number} (${l.kind.replaceAll('_', ' ')}), `}
    <Day day={l.fromDay} /> to <Day day={l.untilDay} />
    {l.inForce ? ': in force on that day' : ': not in force on that day'}
  </p>
);

function Acknowledged({ member: { acknowledged } }: { member: Member }): ReactNode {
  const never = acknowledged.filter(({ at }) => at === null);
  if (acknowledged.length === 0) return <p>No revision that they worked by asked to be acknowledged.</p>;
  return (
    <>
      {never.length > 0 ? (
        <p>
          <strong>{`Never acknowledged: ${never.map((one) => `${one.procedure}, revision ${one.revision}`).join('; ')}`}</strong>
        </p>
      ) : null}
      <details>
        <summary>{`Revisions acknowledged (${acknowledged.length - never.length} of ${acknowledged.length})`}</summary>
        <ul>
          {acknowledged.map((one) => (
            <li key={one.procedure + one.revision}>
              {`${one.procedure}, revision ${one.revision}: `}
              {one.at === null ? 'never' : <When at={one.at} />}
              {one.where === 'at_the_start' ? ', at the start of a visit' : ''}
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
