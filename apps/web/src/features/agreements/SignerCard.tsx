// One signer: whether and how they signed; sending the link again, and taking the signature on paper.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Group, Modal } from '@mantine/core';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { CAPACITIES, type SignerShown } from '@backsight/contract/agreements';
import { sendLinkAgain } from '../../api/agreements.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { ConfirmDialog } from '../../ui/ConfirmDialog.tsx';
import { Details } from '../../ui/Details.tsx';
import { saved } from '../../ui/saved.ts';
import { When } from '../../ui/When.tsx';
import { CapacityForm } from './CapacityForm.tsx';
import { OnSiteForm } from './OnSiteForm.tsx';

const METHODS = { link: 'by private link', on_site_device: "on the pair's device", paper: 'on paper' } as const;
type Open = 'send' | 'paper' | 'capacity' | null;
const TITLES = { paper: 'Signature at the door', capacity: 'Who signs for whom' } as const;

export function SignerCard({ signer, jobId }: { signer: SignerShown; jobId: string }): ReactNode {
  const me = useMe();
  const [open, setOpen] = useState<Open>(null);
  const office = me.roles.some((role) => role === 'owner' || role === 'office_manager');
  const close = () => setOpen(null);
  const { signature } = signer;
  return (
    <section aria-label={signer.name}>
      <h2>{signer.name}</h2>
      <Details
        rows={[
          [
            'Signed',
            signature ? (
              <>
                <When key="w" at={signature.happenedAt} /> {METHODS[signature.method]}, as {signature.name ?? 'a name that was erased'}
              </>
            ) : (
              'not yet'
            ),
          ],
          ['Signs', signer.capacity === 'self' ? CAPACITIES.self : `${CAPACITIES[signer.capacity]}, ${signer.authority}`],
          [
            'Link',
            signer.sentAt ? (
              <>
                <When key="s" at={signer.sentAt} /> to {signer.email}
              </>
            ) : (
              'not sent'
            ),
          ],
          ...(signer.sharedAddress ? [['Caution', 'Somebody else has the same e-mail address.'] as const] : []),
        ]}
      />
      {signature ? null : (
        <Group gap="sm">
          <Button variant="default" onClick={() => setOpen('paper')}>
            Record a signature
          </Button>
          {office ? (
            <Button variant="default" disabled={!signer.email} onClick={() => setOpen('send')}>
              {signer.sentAt ? 'Send the link again' : 'Send the link'}
            </Button>
          ) : null}
          {office ? (
            <Button variant="default" onClick={() => setOpen('capacity')}>
              Signs for somebody else
            </Button>
          ) : null}
        </Group>
      )}
      {open === 'send' ? <Send signer={signer} jobId={jobId} onClose={close} /> : null}
      <Modal
        opened={open === 'paper' || open === 'capacity'}
        onClose={close}
        title={open === 'paper' || open === 'capacity' ? TITLES[open] : ''}
        closeButtonProps={{ 'aria-label': 'Close' }}
      >
        {open === 'paper' ? <OnSiteForm signer={signer} onDone={close} /> : null}
        {open === 'capacity' ? <CapacityForm signer={signer} onDone={close} /> : null}
      </Modal>
    </section>
  );
}

function Send({ signer, jobId, onClose }: { signer: SignerShown; jobId: string; onClose: () => void }): ReactNode {
  const queries = useQueryClient();
  const [key] = useState(newId);
  const [asked, setAsked] = useState(false);
  const save = useMutation({
    mutationFn: () => sendLinkAgain({ signerId: signer.id, asked, key }),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['agreements', 'job', jobId] });
      saved('A fresh link goes out within seconds.');
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
        {signer.name} gets a fresh link at {signer.email}. The link before it ends.
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
