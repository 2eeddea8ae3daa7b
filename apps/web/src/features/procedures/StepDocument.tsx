// A step as it stands in the written procedure: caution first, then what to do, why, how it is recorded and when it applies.
import type { ReactNode } from 'react';
import type { StepInWords } from '@backsight/contract/procedures';
import { TracedTo } from '../../ui/TracedTo.tsx';
import classes from './procedures.module.css';

export const Caution = ({ children }: { children: ReactNode }): ReactNode => (
  <div className={classes.caution}>
    <strong>Caution: read before you begin</strong>
    {children}
  </div>
);

/** Steps come after the screen does, so whoever was led to one of them by its address is brought there when it shows. */
const intoView = (section: HTMLElement | null): void => {
  if (section && window.location.hash === `#${section.id}`) section.scrollIntoView({ block: 'start' });
};

/** `short`: under its title already, with what one only looks up folded away. `traced`: with the callbacks that were traced to it, for those who may know. */
type Props = { of: StepInWords; number?: number; short?: boolean; traced?: boolean };

export function StepDocument({ of, number, short, traced }: Props): ReactNode {
  const { step } = of;
  const about = [
    of.basis,
    of.style,
    `${step.minutes} min planned`,
    step.kit.length > 0 ? `kit: ${step.kit.map((kit) => kit.replaceAll('_', ' ')).join(', ')}` : '',
    of.place === '' ? '' : `done ${of.place}`,
    of.order,
  ].filter(Boolean);
  const why = <p className={classes.soft}>Why: {step.why}</p>;
  const sources = (
    <>
      <p className={classes.soft}>{about.join(' · ')}</p>
      {of.references.length > 0 ? <p className={classes.soft}>Sources: {of.references.join('; ')}</p> : null}
    </>
  );
  return (
    <section ref={intoView} id={`step-${step.key}`} className={classes.step} aria-label={step.title}>
      {short ? null : (
        <h3>
          {number === undefined ? '' : `${number}. `}
          {step.title}
        </h3>
      )}
      {step.caution === undefined ? null : <Caution>{step.caution}</Caution>}
      <p>{step.instruction}</p>
      {short ? null : why}
      <p>
        <strong>Recorded as</strong> {of.evidence}, {of.per}, by {of.who}. <strong>Applies</strong> {of.applies}.
      </p>
      {short ? (
        <details>
          <summary>Why, and where it comes from</summary>
          {why}
          {sources}
        </details>
      ) : (
        sources
      )}
      {traced ? <TracedTo stepKey={step.key} /> : null}
    </section>
  );
}
