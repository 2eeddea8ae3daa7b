// What can be done with an agreement text: a new draft from it; a draft changed, approved, discarded; a text reviewed or withdrawn.
import { useState, type ReactNode } from 'react';
import { Button, Group } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import type { TextPage } from '@backsight/contract/agreementTexts';
import { discardText, textsQuery, withdrawText } from '../../api/agreementTexts.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Modal } from '../../ui/Modal.ts';
import { useSend } from '../../ui/useSend.ts';
import { ApproveForm } from './ApproveForm.tsx';
import { NewDraftForm } from './NewDraftForm.tsx';
import { ReviewForm } from './ReviewForm.tsx';

type Asking = 'draft' | 'approve' | 'review' | 'discard' | 'withdraw' | null;
const TITLES = { draft: 'A new draft', approve: 'Approve this text', review: "An attorney's review" } as const;
const refresh = ['agreement-texts'];

export function TextActs({ text }: { text: TextPage }): ReactNode {
  const me = useMe();
  const navigate = useNavigate();
  const [asking, setAsking] = useState<Asking>(null);
  const close = () => setAsking(null);
  const discard = useSend(discardText, {
    refresh,
    said: 'The draft was discarded.',
    then: () => void navigate({ to: '/agreement-texts' }),
  });
  const withdraw = useSend(withdrawText, { refresh, said: 'The text was withdrawn.', then: close });
  const [key, setKey] = useState(newId);
  const owner = me.roles.includes('owner');
  return (
    <>
      <Group gap="sm" my="md">
        <Compared text={text} />
        {text.state === 'draft' ? (
          <>
            <ButtonLink to="/agreement-texts/$textId/draft" params={{ textId: text.id }}>
              Change the draft
            </ButtonLink>
            <Button variant="default" onClick={() => setAsking('approve')} disabled={text.authorId === me.id}>
              Approve
            </Button>
            <Button variant="default" onClick={() => setAsking('discard')}>
              Discard
            </Button>
          </>
        ) : (
          <Button onClick={() => setAsking('draft')}>New draft from this text</Button>
        )}
        {owner && text.state === 'approved' && !text.attorney ? (
          <Button variant="default" onClick={() => setAsking('review')}>
            Record an attorney&apos;s review
          </Button>
        ) : null}
        {owner && text.state === 'approved' ? (
          <Button variant="default" onClick={() => setAsking('withdraw')}>
            Withdraw
          </Button>
        ) : null}
      </Group>
      {text.state === 'draft' && text.authorId === me.id ? <p>You wrote this draft last: somebody else approves it.</p> : null}
      {asking === 'draft' || asking === 'approve' || asking === 'review' ? (
        <Modal opened onClose={close} title={TITLES[asking]} closeButtonProps={{ 'aria-label': 'Close' }}>
          {asking === 'draft' ? <NewDraftForm textId={text.id} /> : null}
          {asking === 'approve' ? <ApproveForm text={text} onDone={close} /> : null}
          {asking === 'review' ? <ReviewForm text={text} onDone={close} /> : null}
        </Modal>
      ) : null}
      <ConfirmDialog
        opened={asking === 'discard'}
        title="Discard the draft"
        act="Discard it"
        busy={discard.isPending}
        error={discard.error}
        onConfirm={() => discard.mutate({ id: text.id, version: text.version })}
        onClose={close}
      >
        <p>What was written in it is gone. Texts in force stay as they are.</p>
      </ConfirmDialog>
      <ConfirmDialog
        opened={asking === 'withdraw'}
        title="Withdraw the text"
        act="Withdraw it"
        busy={withdraw.isPending}
        error={withdraw.error}
        onConfirm={() => withdraw.mutate({ id: text.id, key }, { onError: () => setKey(newId()) })}
        onClose={close}
      >
        <p>New agreements are made from the text before it. Agreements that were made from this one stand.</p>
      </ConfirmDialog>
    </>
  );
}

/** A draft is held against what it was copied from, another text against the one before it of its kind. */
function Compared({ text }: { text: TextPage }): ReactNode {
  const { data } = useQuery(textsQuery);
  const other = text.basedOnId ?? data?.find(({ id, kind, number }) => id !== text.id && kind === text.kind && number < text.number)?.id;
  if (!other) return null;
  return (
    <ButtonLink to="/agreement-texts/$textId/comparison" params={{ textId: text.id }} search={{ with: other }} variant="default">
      What is different
    </ButtonLink>
  );
}
