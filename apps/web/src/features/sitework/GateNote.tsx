// The gate before a start: what is missing in sentences, and the act of those who may let it start anyway.
import { useState, type ReactNode } from 'react';
import { Button, Modal, Textarea } from '@mantine/core';
import type { ReplyOf } from '@backsight/contract/route';
import type { siteworkRoutes } from '@backsight/contract/sitework';
import { overrideGate } from '../../api/agreements.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import classes from './sitework.module.css';

type Gate = ReplyOf<typeof siteworkRoutes.start>['gate'];

export function GateNote({ visitId, gate }: { visitId: string; gate: Gate }): ReactNode {
  const me = useMe();
  const may = me.roles.includes('owner') || me.roles.includes('lead_inspector');
  const lines = gate.open ? gate.sentences.filter((sentence) => !sentence.includes('has not acknowledged')) : gate.sentences;
  if (lines.length === 0)
    return (
      <div className={classes.notice}>
        <p>Agreement and fee are in order.</p>
      </div>
    );
  return (
    <div className={gate.open ? classes.notice : classes.caution}>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {gate.overriddenBecause.map((why) => (
        <p key={why}>Let pass: {why}</p>
      ))}
      {gate.open || may ? null : (
        <p>The visit cannot start before this is settled. An owner or a lead inspector may let it start anyway, with a reason.</p>
      )}
      {!gate.open && may ? <StartAnyway visitId={visitId} missing={gate.sentences} /> : null}
    </div>
  );
}

const LABELS = { reason: 'Reason' };

function StartAnyway({ visitId, missing }: { visitId: string; missing: string[] }): ReactNode {
  const [opened, setOpened] = useState(false);
  const [id] = useState(newId);
  const send = useSend(overrideGate, {
    refresh: ['visit', visitId],
    said: 'The visit may start; the reason is kept with the record.',
    then: () => setOpened(false),
  });
  const fields = useFields({ reason: '' }, LABELS, send.error, 'anyway');
  return (
    <>
      <Button variant="default" size="lg" onClick={() => setOpened(true)}>
        Start anyway
      </Button>
      <Modal opened={opened} onClose={() => setOpened(false)} title="Start anyway" closeButtonProps={{ 'aria-label': 'Close' }}>
        <p>Still missing:</p>
        <ul>
          {missing.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        <p>What is missing, the reason and your name stay with the record of this visit.</p>
        <Form
          error={send.error}
          labels={LABELS}
          scope="anyway"
          submit="Let it start"
          busy={send.isPending}
          onSubmit={() => send.mutate({ visitId, id, reason: fields.values.reason })}
          besides={
            <Button variant="default" onClick={() => setOpened(false)}>
              Go back
            </Button>
          }
        >
          <Textarea
            {...fields.text('reason')}
            required
            maxLength={1000}
            autosize
            minRows={2}
            description="At least 10 characters, so that it still says something in a year."
          />
        </Form>
      </Modal>
    </>
  );
}
