// The outbox: every mail that the firm sent or wants to send, how it went, and what is to be done about it. The URL holds which are shown.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect } from '@mantine/core';
import { useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { MailShown } from '@backsight/contract/mail';
import { mailSettingsQuery, outboxQuery } from '../../api/mail.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Modal } from '../../ui/Modal.ts';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';
import { BadAddresses } from './BadAddresses.tsx';
import { Letter, State } from './Letter.tsx';
import { Pause } from './Pause.tsx';
import { STATES } from './words.ts';

const columns = (open: (mail: MailShown) => void): Column<MailShown>[] => [
  {
    key: 'subject',
    head: 'Subject',
    cell: (mail) => (
      <Button
        variant="subtle"
        size="compact-sm"
        onClick={() => open(mail)}
        styles={{
          label: { whiteSpace: 'normal', textAlign: 'start', lineHeight: 1.4 },
          root: { height: 'auto', minHeight: 28, paddingInline: 0 },
        }}
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

const route = getRouteApi('/shell/mail');

export function OutboxPage(): ReactNode {
  const state = route.useSearch().state ?? null;
  const navigate = route.useNavigate();
  const setState = (chosen: MailShown['state'] | null) => void navigate({ search: chosen ? { state: chosen } : {}, replace: true });
  const outbox = useInfiniteQuery({ ...outboxQuery(state), refetchInterval: 10_000 });
  const settings = useQuery(mailSettingsQuery);
  const [opened, setOpened] = useState<string | null>(null);
  const mails = outbox.data?.pages.flatMap(({ items }) => items) ?? [];
  const mail = mails.find(({ id }) => id === opened) ?? null;
  return (
    <Page
      title="Outbox"
      about="Mail that the firm sends, newest first, and how it went."
      actions={
        <>
          <ButtonLink variant="default" to="/mail/wordings">
            Wordings
          </ButtonLink>
          <ButtonLink variant="default" to="/mail/settings">
            Settings
          </ButtonLink>
        </>
      }
    >
      <ProblemNote of={outbox.error ?? settings.error} />
      {settings.data ? <Pause settings={settings.data} /> : null}
      {settings.data ? <BadAddresses bad={settings.data.badAddresses} /> : null}
      <NativeSelect
        label="Show"
        maw="20rem"
        mt="md"
        mb="md"
        value={state ?? ''}
        data={[{ value: '', label: 'all mail' }, ...Object.entries(STATES).map(([value, label]) => ({ value, label }))]}
        onChange={(event) => setState((event.currentTarget.value || null) as MailShown['state'] | null)}
      />
      {outbox.isPending ? <Loading /> : null}
      {outbox.data && mails.length === 0 ? (
        <Empty>{state ? 'No mail is in this state.' : 'No mail was written yet. Confirming a job writes the first one.'}</Empty>
      ) : null}
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
        {mail ? <Letter key={mail.id} mail={mail} /> : null}
      </Modal>
    </Page>
  );
}
