// A short text, read over here and sent from the phone's own messaging.
import { useState, type ReactNode } from 'react';
import { Button, Group, Textarea } from '@mantine/core';
import { smsLink } from '@backsight/domain/shared/sms';

type Props = { name: string; phone: string; text: string };

export function PrepareText({ name, phone, text }: Props): ReactNode {
  const [typed, setTyped] = useState<string | null>(null);
  if (typed === null)
    return (
      <Button size="compact-sm" variant="default" aria-label={`Prepare a text to ${name}`} onClick={() => setTyped(text)}>
        Text
      </Button>
    );
  const link = smsLink(phone, typed.trim());
  return (
    <div style={{ width: 'min(100%, 32rem)' }}>
      <Textarea
        label={`Text to ${name}, ${phone}`}
        autosize
        minRows={2}
        value={typed}
        onChange={(event) => setTyped(event.currentTarget.value)}
        autoFocus
      />
      <Group gap="xs" mt="xs">
        {link ? (
          <Button component="a" href={link} size="compact-md">
            Open in messages
          </Button>
        ) : (
          <span>This phone number has no digits.</span>
        )}
        <Button size="compact-md" variant="default" onClick={() => setTyped(null)}>
          Leave it
        </Button>
      </Group>
    </div>
  );
}
