// A private link that no mail took along: the office copies it, and passes it on.
import { useRef, useState, type ReactNode } from 'react';
import { Button, Group, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { keptLinksQuery } from '../../api/agreements.ts';
import { useMe } from '../../api/people.ts';

/** What the office knows of links: nothing of it for anybody else. */
export function useKeptLinks(jobId: string): { mailLeaves: boolean; linkOf: (signerId: string) => string | null } {
  const office = useMe().roles.some((role) => role === 'owner' || role === 'office_manager');
  const { data } = useQuery({ ...keptLinksQuery(jobId), enabled: office });
  return {
    mailLeaves: data?.mailLeaves ?? true,
    linkOf: (signerId) => data?.links.find((one) => one.signerId === signerId)?.link ?? null,
  };
}

export function KeptLink({ link, name }: { link: string; name: string }): ReactNode {
  const field = useRef<HTMLInputElement>(null);
  const [copied, setCopied] = useState('');
  // a browser without a clipboard for us, as over plain http, still copies what is selected
  const copy = async () => {
    field.current?.select();
    const done = navigator.clipboard
      ? await navigator.clipboard.writeText(link).then(
          () => true,
          () => false,
        )
      : document.execCommand('copy');
    setCopied(done ? link : '');
  };
  return (
    <>
      <Group gap="sm" align="end">
        <TextInput
          ref={field}
          readOnly
          value={link}
          label={`Private link for ${name}`}
          description={`Not sent. Copy it, and send it to ${name} alone.`}
          onFocus={(event) => event.currentTarget.select()}
          flex="1 1 16rem"
        />
        <Button variant="default" onClick={() => void copy()}>
          Copy the link
        </Button>
      </Group>
      <p role="status">{copied === link ? 'Copied.' : ''}</p>
    </>
  );
}
