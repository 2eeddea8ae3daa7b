// Which corrective actions and callbacks a revision comes from; shown to owner and lead inspector only.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { actionsQuery } from '../../api/callbacks.ts';
import { TextLink } from '../../ui/links.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';

export function ComesFrom({ revisionId }: { revisionId: string }): ReactNode {
  const { data, error } = useQuery(actionsQuery(revisionId));
  if (error) return <ProblemNote of={error} />;
  if (!data || data.length === 0) return null;
  return (
    <Section title="What it comes from">
      <p>Only owner and lead inspectors see this.</p>
      <ul>
        {data.map((a) => (
          <li key={a.id}>
            <TextLink
              to="/corrective-actions/$actionId"
              params={{ actionId: a.id }}
            >{`Corrective action ${a.number}: ${a.title}`}</TextLink>
            {` (${a.state}), because of `}
            {a.callbacks.length === 0
              ? 'callbacks that only the owner sees'
              : a.callbacks.map((c, at) => (
                  <span key={c.id}>
                    {at > 0 ? ', ' : ''}
                    <TextLink to="/callbacks/$callbackId" params={{ callbackId: c.id }}>{`callback ${c.number}`}</TextLink>
                  </span>
                ))}
          </li>
        ))}
      </ul>
    </Section>
  );
}
