// The outbox: every mail that the firm sent or wants to send, how it went, and a second try for what is stuck.
import { useState, type ReactNode } from 'react';
import { Button, Modal } from '@mantine/core';
import { useInfiniteQuery, useMutation, useQueryClient } from '@tanstack/react-query';
import type { MailShown } from '@backsight/contract/mail';
import { newId } from '../../api/ids.ts';
import { outboxQuery, tryAgain } from '../../api/mail.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { saved } from '../../ui/saved.ts';
import { When } from '../../ui/When.tsx';

const STATES: Record<MailShown['state'], string> = {
  waiting: 'waiting',
  sent: 'sent',
  kept: 'kept here: no mail server is set',
  given_up: 'given up',
};

const columns = (open: (mail: MailShown) => void): Column<MailShown>[] => [
  {
    key: 'subject',
    head: 'Subject',
    cell: (mail) => (
      <Button
        variant="subtle"
        size="compact-sm"
        onClick={() => open(mail)}
        styles={{ label: { whiteSpace: 'normal', textAlign: 'left', lineHeight: 1.4 }, root: { height: 'auto', minHeight: 28 } }}
      >
        {mail.subject}
      </Button>
    ),
  },
  { key: 'to', head: 'To', cell: ({ toName, toAddress }) => `${toName}, ${toAddress}` },
  { key: 'state', head: 'State', cell: (mail) => <State mail={mail} /> },
  { key: 'attempts', head: 'Tries', align: 'right', cell: ({ attempts }) => attempts },
  { key: 'at', head: 'Written', oneLine: true, cell: ({ recordedAt }) => <When at={recordedAt} /> },
];

function State({ mail }: { mail: MailShown }): ReactNode {
  if (mail.state === 'waiting' && mail.lastError)
    return (
      <>
        waiting, tried again <When at={mail.nextTryAt} />: {mail.lastError}
      </>
    );
  return (
    <>
      {STATES[mail.state]}
      {mail.lastError ? `: ${mail.lastError}` : ''}
    </>
  );
}

export function OutboxPage(): ReactNode {
  const outbox = useInfiniteQuery({ ...outboxQuery, refetchInterval: 10_000 });
  const [opened, setOpened] = useState<string | null>(null);
  const mails = outbox.data?.pages.flatMap(({ items }) => items) ?? [];
  const mail = mails.find(({ id }) => id === opened) ?? null;
  return (
    <Page title="Outbox" about="Mail that the firm sends, newest first, and how it went.">
      <ProblemNote of={outbox.error} />
      {outbox.isPending ? <Loading /> : null}
      {outbox.data && mails.length === 0 ? <Empty>No mail was written yet. Confirming a job writes the first one.</Empty> : null}
      {mails.length > 0 ? (
        <DataTable caption="Outgoing mail" columns={columns(({ id }) => setOpened(id))} rows={mails} rowKey={({ id }) => id} />
      ) : null}
      {outbox.hasNextPage ? (
        <Button mt="md" variant="default" loading={outbox.isFetchingNextPage} onClick={() => void outbox.fetchNextPage()}>
          Show older mail
        </Button>
      ) : null}
      <Modal
        opened={mail !== null}
        onClose={() => setOpened(null)}
        title={mail?.subject ?? ''}
        size="lg"
        closeButtonProps={{ 'aria-label': 'Close' }}
      >
        {mail ? <Letter mail={mail} /> : null}
      </Modal>
    </Page>
  );
}

function Letter({ mail }: { mail: MailShown }): ReactNode {
  const queries = useQueryClient();
  const [key] = useState(newId);
  const again = useMutation({
    mutationFn: () => tryAgain({ id: mail.id, key }),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: ['mail'] });
      saved('The mail is tried again within seconds.');
    },
  });
  const stuck = mail.state === 'given_up' || (mail.state === 'waiting' && mail.attempts > 0);
  return (
    <>
      <p>
        To {mail.toName}, {mail.toAddress}. <State mail={mail} />.
      </p>
      <pre style={{ whiteSpace: 'pre-wrap', overflowWrap: 'anywhere', font: 'inherit' }}>{mail.body}</pre>
      <ProblemNote of={again.error} />
      {stuck ? (
        <Button loading={again.isPending} onClick={() => again.mutate()}>
          Try again now
        </Button>
      ) : null}
    </>
  );
}
