// The gate before a start: what is missing in sentences, and the act of those who may let it start anyway.
import { useEffect, useState, type ReactNode } from 'react';
import { Button, Textarea } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { useRouter } from '@tanstack/react-router';
import type { ReplyOf } from '@backsight/contract/route';
import type { siteworkRoutes } from '@backsight/contract/sitework';
import { agreementQuery, overrideGate } from '../../api/agreements.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { useSignings } from '../../api/signings.ts';
import { Form } from '../../ui/Form.tsx';
import { Modal } from '../../ui/Modal.ts';
import { TextLink } from '../../ui/links.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import classes from './sitework.module.css';

type Gate = ReplyOf<typeof siteworkRoutes.start>['gate'];

export function GateNote({ visitId, jobId, gate }: { visitId: string; jobId: string; gate: Gate }): ReactNode {
  const me = useMe();
  const signedHere = useSignings(me.id).filter((one) => one.jobId === jobId && !one.refused && !one.late);
  useReadAhead(jobId);
  const may = me.roles.includes('owner') || me.roles.includes('lead_inspector');
  const lines = gate.open ? gate.sentences.filter((sentence) => !sentence.includes('has not acknowledged')) : gate.sentences;
  if (lines.length === 0)
    return (
      <div className={classes.notice}>
        <p>{gate.warnings.length === 0 ? 'Agreement and fee are in order.' : gate.warnings.join(' ')}</p>
      </div>
    );
  return (
    <div className={gate.open ? classes.notice : classes.caution}>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {gate.warnings.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {signedHere.map(({ signerId, signer }) => (
        <p key={signerId}>
          <strong>{signer} has signed on this phone.</strong> The gate opens as soon as that is sent.
        </p>
      ))}
      {gate.missing.includes('agreement-unsigned') ? (
        <p>
          <TextLink to="/jobs/$jobId/agreement" params={{ jobId }}>
            Let the client sign here, on this device or on paper
          </TextLink>
        </p>
      ) : null}
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

/** Reads the agreement while there is signal, so that it can be signed where there is none. */
function useReadAhead(jobId: string): void {
  const queries = useQueryClient();
  const router = useRouter();
  useEffect(() => {
    void queries.prefetchQuery(agreementQuery(jobId));
    void router.preloadRoute({ to: '/jobs/$jobId/agreement', params: { jobId } });
    void router.preloadRoute({ to: '/jobs/$jobId/sign/$signerId', params: { jobId, signerId: jobId } });
  }, [queries, router, jobId]);
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
  const fields = useFields({ reason: '' }, LABELS, send.error, 'anyway', visitId);
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
          draft={fields.draft}
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
