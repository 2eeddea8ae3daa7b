// Approves a draft: from when it is in force and until when everybody has to have acknowledged it.
import { useState, type ReactNode } from 'react';
import { Stack, Textarea, TextInput } from '@mantine/core';
import { DateTime } from 'luxon';
import { useQuery } from '@tanstack/react-query';
import type { RevisionPage } from '@backsight/contract/procedures';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { approveRevision, impactQuery } from '../../api/procedures.ts';
import { Form } from '../../ui/Form.tsx';
import { Modal } from '../../ui/Modal.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';

const LABELS = { inForceFrom: 'In force from', acknowledgeBy: 'Acknowledge by', graceReason: 'Reason for a shorter time' };

/** What a date-and-time input holds, in the firm's zone, as an instant; null when it is blank. */
const instantOf = (typed: string, zone: string): string | null => (typed === '' ? null : DateTime.fromISO(typed, { zone }).toUTC().toISO());

export function ApproveDialog({ revision, onClose }: { revision: RevisionPage; onClose: () => void }): ReactNode {
  const { zone, roles } = useMe();
  const [key, setKey] = useState(newId);
  const { data: impact } = useQuery(impactQuery(revision.id));
  const approve = useSend(approveRevision, { refresh: ['procedures'], said: 'Approved. Every inspector gets a mail.', then: onClose });
  const fields = useFields({ inForceFrom: '', acknowledgeBy: '', graceReason: '' }, LABELS, approve.error, 'approve', revision.id);
  const send = () => {
    const { inForceFrom, acknowledgeBy, graceReason } = fields.values;
    approve.mutate(
      {
        id: revision.id,
        key,
        version: revision.version,
        inForceFrom: instantOf(inForceFrom, zone),
        acknowledgeBy: instantOf(acknowledgeBy, zone),
        graceReason: graceReason.trim() === '' ? null : graceReason,
      },
      { onError: () => setKey(newId()) },
    );
  };
  return (
    <Modal opened onClose={onClose} title="Approve this revision" closeButtonProps={{ 'aria-label': 'Close' }}>
      <Form
        error={approve.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Approve the revision"
        busy={approve.isPending}
        onSubmit={send}
      >
        <Stack gap="sm">
          <TextInput
            {...fields.text('inForceFrom')}
            type="datetime-local"
            description="Blank: now. Jobs under way keep the revision they were opened with."
          />
          <TextInput
            {...fields.text('acknowledgeBy')}
            type="datetime-local"
            description="Blank: as early as the grace allows, at least two working days after it is in force."
          />
          {impact && fields.values.inForceFrom === '' ? (
            <p style={{ margin: 0 }}>
              In force now, that is <When at={impact.acknowledgeByIfNow} />.
            </p>
          ) : null}
          {roles.includes('owner') ? (
            <Textarea
              {...fields.text('graceReason')}
              autosize
              minRows={2}
              description="Only an owner may give less, for danger to people."
            />
          ) : null}
        </Stack>
      </Form>
    </Modal>
  );
}
