// What the agreement in force says for this house, clause by clause, as far as it names nothing of the job itself.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { evaluate } from '@backsight/domain/shared/evaluate';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { textQuery, textsQuery } from '../../api/agreementTexts.ts';
import { useMe } from '../../api/people.ts';
import { PaperBlocks } from '../../ui/PaperBlocks.tsx';
import { todayIn } from '../../ui/time.ts';
import classes from './booking.module.css';

/** A field that only a job fills: its clause is read on the job. */
const FIELD = /\{\{/;

export function AgreementSays({ facts, services }: { facts: PropertyFacts; services: readonly string[] }): ReactNode {
  const { zone } = useMe();
  const inForce = useQuery(textsQuery).data?.find((text) => text.kind === 'inspection' && text.inForce);
  const text = useQuery({ ...textQuery(inForce?.id ?? ''), enabled: inForce !== undefined }).data;
  if (!text) return null;
  const context = { facts, services, day: todayIn(zone) };
  const said = text.clauses.filter(({ body, title, applies }) => title && !FIELD.test(body) && evaluate(applies, context) !== 'no');
  return (
    <section aria-label="The agreement says">
      <h3 className={classes.later}>The agreement says</h3>
      {said.map(({ key, title, client, blocks }) => (
        <details key={key}>
          <summary>{client === 'owner' ? `${title} (when the client owns the house)` : title}</summary>
          <PaperBlocks blocks={blocks} top={4} />
        </details>
      ))}
      {text.attorney ? null : <p className={classes.soft}>An example: no attorney has reviewed it yet.</p>}
    </section>
  );
}
