// What is missing before the report may leave, and the act of those who may let it leave anyway.
import { useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import type { Register } from '@backsight/contract/sitework/reports';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { letHandOver } from '../../api/sitework.ts';
import { Form } from '../../ui/Form.tsx';
import { Modal } from '../../ui/Modal.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import classes from './sitework.module.css';

export function HandOverGate({ register }: { register: Register }): ReactNode {
  const me = useMe();
  const { missing, overrides } = register.handOver;
  const may = me.roles.includes('owner') || me.roles.includes('lead_inspector');
  const passed = overrides.flatMap((one) => one.missing);
  const open = missing.every(({ code }) => code !== 'record-unsealed' && passed.includes(code));
  const canPass = missing.some(({ code }) => code !== 'record-unsealed' && !passed.includes(code));
  if (missing.length === 0 && overrides.length === 0) return null;
  return (
    <div className={open ? classes.notice : classes.caution}>
      {missing.length > 0 ? (
        <p>The report leaves when {missing.map(({ wants }) => wants).join(' and ')}. That is the firm&apos;s policy.</p>
      ) : null}
      {overrides.map((one) => (
        <p key={one.id}>
          Let pass by {one.by} <When at={one.happenedAt} />: {one.reason}
        </p>
      ))}
      {canPass && may ? <LetLeave jobId={register.jobId} /> : null}
      {canPass && !may ? <p>An owner or a lead inspector may let it leave anyway, with a reason.</p> : null}
    </div>
  );
}

const LABELS = { reason: 'Reason' };

function LetLeave({ jobId }: { jobId: string }): ReactNode {
  const [opened, setOpened] = useState(false);
  const [id] = useState(newId);
  const send = useSend(letHandOver, {
    refresh: ['jobs', jobId],
    said: 'The report may leave; the reason is kept.',
    then: () => setOpened(false),
  });
  const fields = useFields({ reason: '' }, LABELS, send.error, 'leave', jobId);
  return (
    <>
      <Button variant="default" onClick={() => setOpened(true)}>
        Let it leave anyway
      </Button>
      <Modal
        opened={opened}
        onClose={() => setOpened(false)}
        title="Let the report leave anyway"
        closeButtonProps={{ 'aria-label': 'Close' }}
      >
        <p>What is missing, the reason and your name stay on file, and the owner sees it at home.</p>
        <Form
          error={send.error}
          labels={LABELS}
          draft={fields.draft}
          scope="leave"
          submit="Let it leave"
          busy={send.isPending}
          onSubmit={() => send.mutate({ jobId, id, reason: fields.values.reason })}
        >
          <Textarea {...fields.text('reason')} required maxLength={1000} autosize minRows={2} description="At least 10 characters." />
        </Form>
      </Modal>
    </>
  );
}
