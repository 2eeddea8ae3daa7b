// One signer: whether and how they signed; sending the link again, and taking the signature on paper.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Group } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { SignerShown } from '@backsight/contract/agreements';
import { revokeLink, sendLinkAgain } from '../../api/agreements.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Modal } from '../../ui/Modal.ts';
import { saved } from '../../ui/saved.ts';
import { useSend } from '../../ui/useSend.ts';
import { CapacityForm } from './CapacityForm.tsx';
import { KeptLink, useKeptLinks } from './KeptLink.tsx';
import { OnSiteForm } from './OnSiteForm.tsx';
import { SignerFacts } from './SignerFacts.tsx';

type Open = 'send' | 'revoke' | 'paper' | 'capacity' | null;
const TITLES = { paper: 'A signature on paper', capacity: 'Who signs for whom' } as const;

export function SignerCard({ signer, jobId }: { signer: SignerShown; jobId: string }): ReactNode {
  const me = useMe();
  const [open, setOpen] = useState<Open>(null);
  const office = me.roles.some((role) => role === 'owner' || role === 'office_manager');
  const close = () => setOpen(null);
  const { mailLeaves, linkOf } = useKeptLinks(jobId);
  const link = linkOf(signer.id);
  const linked = signer.sentAt !== null && signer.linkRevokedAt === null;
  return (
    <section aria-label={signer.name}>
      <h2>{signer.name}</h2>
      <SignerFacts signer={signer} kept={link !== null} />
      {link === null ? null : <KeptLink link={link} name={signer.name} />}
      <Group gap="sm">
        {signer.signature ? null : (
          <>
            <ButtonLink to="/jobs/$jobId/sign/$signerId" params={{ jobId, signerId: signer.id }} variant="default">
              Sign on this device
            </ButtonLink>
            <Button variant="default" onClick={() => setOpen('paper')}>
              Signed on paper
            </Button>
          </>
        )}
        {office && !signer.signature ? (
          <>
            <Button variant="default" disabled={!signer.email} onClick={() => setOpen('send')}>
              {signer.sentAt ? 'Send the link again' : 'Send the link'}
            </Button>
            <Button variant="default" onClick={() => setOpen('capacity')}>
              Signs for somebody else
            </Button>
          </>
        ) : null}
        {office && linked ? (
          <Button variant="default" onClick={() => setOpen('revoke')}>
            Take the link back
          </Button>
        ) : null}
      </Group>
      {open === 'send' ? <Send signer={signer} mailLeaves={mailLeaves} onClose={close} /> : null}
      {open === 'revoke' ? <Revoke signer={signer} onClose={close} /> : null}
      <Modal
        opened={open === 'paper' || open === 'capacity'}
        onClose={close}
        title={open === 'paper' || open === 'capacity' ? TITLES[open] : ''}
        closeButtonProps={{ 'aria-label': 'Close' }}
      >
        {open === 'paper' ? <OnSiteForm signer={signer} jobId={jobId} onDone={close} /> : null}
        {open === 'capacity' ? <CapacityForm signer={signer} onDone={close} /> : null}
      </Modal>
    </section>
  );
}

function Revoke({ signer, onClose }: { signer: SignerShown; onClose: () => void }): ReactNode {
  const [key] = useState(newId);
  const revoke = useSend(revokeLink, { refresh: ['agreements'], said: 'The link opens nothing any more.', then: onClose });
  return (
    <ConfirmDialog
      opened
      title="Take the link back"
      act="Take it back"
      busy={revoke.isPending}
      error={revoke.error}
      onConfirm={() => revoke.mutate({ signerId: signer.id, key })}
      onClose={onClose}
    >
      <p>
        The link that {signer.name} was sent opens nothing from now on, and nobody is reminded with a new one. A fresh link can be sent at
        any time.
      </p>
    </ConfirmDialog>
  );
}

function Send({ signer, mailLeaves, onClose }: { signer: SignerShown; mailLeaves: boolean; onClose: () => void }): ReactNode {
  const queries = useQueryClient();
  const [key] = useState(newId);
  const [asked, setAsked] = useState(false);
  const save = useMutation({
    mutationFn: () => sendLinkAgain({ signerId: signer.id, asked, key }),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['agreements'] });
      saved(mailLeaves ? 'A fresh link goes out within seconds.' : 'A fresh link is made. Copy it, and pass it on.');
      onClose();
    },
  });
  return (
    <ConfirmDialog
      opened
      title="Send the link"
      act="Send it"
      busy={save.isPending}
      error={save.error}
      onConfirm={() => save.mutate()}
      onClose={onClose}
    >
      <p>
        {mailLeaves
          ? `${signer.name} gets a fresh link at ${signer.email}.`
          : `A fresh link is made for ${signer.name}. No mail server is set, so nothing is sent: copy it here then, and pass it on.`}{' '}
        The link before it ends.
      </p>
      <Checkbox
        label="I asked: this address is the client's own to use"
        checked={asked}
        onChange={(event) => setAsked(event.currentTarget.checked)}
        description="Only needed when somebody else has the same address; it is kept on file."
      />
    </ConfirmDialog>
  );
}
