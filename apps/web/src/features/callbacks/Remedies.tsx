// Remedies: what the firm does about it, the estimates for it, and what its visits saw.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback } from '@backsight/contract/callbacks';
import { puttingRightQuery } from '../../api/remedies.ts';
import { Section } from '../../ui/Section.tsx';
import { Estimates } from './Estimates.tsx';
import { LookedAgain } from './LookedAgain.tsx';
import { useOneOpen } from './oneOpen.tsx';
import { OneRemedy } from './OneRemedy.tsx';
import { Propose } from './Propose.tsx';

export function Remedies({ callback, judge }: { callback: Callback; judge: boolean }): ReactNode {
  const [open, setOpen] = useOneOpen('remedy');
  const right = useQuery(puttingRightQuery(callback.id)).data;
  const may = callback.state !== 'closed' && callback.state !== 'received';
  return (
    <Section
      title="Remedies"
      brief={callback.remedies.length === 0 ? 'None yet. By policy the firm itself does not repair a house that it inspected.' : null}
      actions={
        may && !open ? (
          <Button variant="default" onClick={() => setOpen(true)}>
            Propose a remedy
          </Button>
        ) : null
      }
    >
      {callback.remedies.map((r) => (
        <OneRemedy key={r.id} callback={callback} remedy={r} right={right} judge={judge} />
      ))}
      {open ? <Propose callback={callback} judge={judge} onDone={() => setOpen(false)} /> : null}
      <Estimates id={callback.id} estimates={right?.estimates ?? []} may={may} />
      {judge && callback.remedies.some(({ visit }) => visit !== null) ? <LookedAgain id={callback.id} /> : null}
    </Section>
  );
}
