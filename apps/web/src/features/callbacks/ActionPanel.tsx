// The corrective actions of a callback.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { ACTION_KINDS, type Callback } from '@backsight/contract/callbacks';
import { TextLink } from '../../ui/links.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day } from '../../ui/When.tsx';
import { DraftRevision } from './DraftRevision.tsx';
import { NewAction } from './NewAction.tsx';
import { useOneOpen } from './oneOpen.tsx';

export function ActionPanel({ callback: c }: { callback: Callback }): ReactNode {
  const [open, setOpen] = useOneOpen('action');
  const traced = c.conclusions?.[0];
  return (
    <Section
      title="Corrective action"
      brief={c.actions!.length > 0 ? null : traced ? 'None yet.' : 'Conclude first: what is changed follows from the cause.'}
      actions={
        traced && !open ? (
          <Button variant="default" onClick={() => setOpen(true)}>
            Decide on one
          </Button>
        ) : null
      }
    >
      {c.actions!.map((a) => (
        <div key={a.id} style={{ marginBottom: 'var(--bs-space-6)' }}>
          <p>
            <TextLink to="/corrective-actions/$actionId" params={{ actionId: a.id }}>{`${a.number}: ${a.title}`}</TextLink>
            {` (${ACTION_KINDS[a.kind]}, ${a.state})`}
            {a.kind === 'none' ? null : (
              <>
                , due <Day day={a.dueOn} />
              </>
            )}
          </p>
          {a.revisionId ? (
            <p>
              <TextLink
                to="/procedures/revision/$revisionId"
                params={{ revisionId: a.revisionId }}
              >{`Revision ${a.revisionNumber}`}</TextLink>
              {`, ${a.revisionState}${a.state === 'open' ? ': this action is done when it is in force' : ''}`}
            </p>
          ) : null}
          {a.kind === 'revision' && a.state === 'open' && (a.revisionId === null || a.revisionState === 'withdrawn') ? (
            <DraftRevision action={a} tracedTo={traced?.procedureId ?? null} system={c.system} />
          ) : null}
        </div>
      ))}
      {open ? <NewAction callbackId={c.id} onDone={() => setOpen(false)} /> : null}
    </Section>
  );
}
