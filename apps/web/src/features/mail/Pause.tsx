// Whether mail leaves now: paused, quiet hours, or no mail server; and the switch.
import { useState, type ReactNode } from 'react';
import { Alert, Button, Group, TextInput } from '@mantine/core';
import type { MailSettings } from '@backsight/contract/mail';
import { pauseMail, resumeMail } from '../../api/mail.ts';
import { clockOf } from '../../ui/clock.ts';
import { useDraft, whileSending } from '../../ui/draft.ts';
import { Follows } from '../../ui/Follows.tsx';
import { Kept } from '../../ui/Kept.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useOpener } from '../../ui/useOpener.ts';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';

export function Pause({ settings }: { settings: MailSettings }): ReactNode {
  const { pausedAt, pausedBy, pauseReason, quiet, quietUntilMinute, server } = settings;
  const resume = useSend(() => resumeMail(), { refresh: ['mail'], said: 'Mail leaves again.' });
  if (pausedAt)
    return (
      <Alert color="red" title="No mail leaves" mb="md">
        <ProblemNote of={resume.error} />
        <p>
          {pausedBy} paused it <When at={pausedAt} />: {pauseReason}
        </p>
        <Follows>What waits leaves within seconds.</Follows>
        <Button loading={resume.isPending} onClick={() => resume.mutate()}>
          Let mail leave again
        </Button>
      </Alert>
    );
  return (
    <>
      <p>
        {server ? `Mail leaves through ${server.host}.` : 'No mail server is set, so mail is kept here and as files.'}
        {quiet ? ` Quiet hours: what is not urgent waits until ${clockOf(quietUntilMinute)}.` : ''}
      </p>
      <Stop />
    </>
  );
}

function Stop(): ReactNode {
  const [open, setOpen] = useState(false);
  const { values, setValues, draft } = useDraft({ reason: '' }, 'pause');
  const opener = useOpener(open);
  const pause = useSend(pauseMail, { refresh: ['mail'], said: 'No mail leaves until somebody lets it.', undo: () => () => resumeMail() });
  if (!open)
    return (
      <Button ref={opener} variant="default" onClick={() => setOpen(true)}>
        Pause all mail
      </Button>
    );
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        whileSending(draft, () => pause.mutate(values.reason));
      }}
    >
      <Kept draft={draft} />
      <ProblemNote of={pause.error} />
      <Group align="flex-end">
        <TextInput
          label="Why"
          value={values.reason}
          onChange={(event) => setValues({ reason: event.currentTarget.value })}
          required
          autoFocus
        />
        <Button type="submit" loading={pause.isPending}>
          Pause all mail
        </Button>
        <Button variant="default" onClick={() => setOpen(false)}>
          Go back
        </Button>
      </Group>
    </form>
  );
}
