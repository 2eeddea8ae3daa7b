// The chart of accounts: rename, add, and write an entry by hand.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { ACCOUNT_KINDS, type LedgerAccount } from '@backsight/contract/fees/ledger';
import { newId } from '../../api/ids.ts';
import { accountsQuery, addAccount, nameAccount, type NewAccount } from '../../api/ledger.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Modal } from '../../ui/Modal.ts';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { HandEntry } from './HandEntry.tsx';

const KINDS = Object.entries(ACCOUNT_KINDS).map(([value, label]) => ({ value, label: `${value}: ${label}` }));

export function AccountsPage(): ReactNode {
  const accounts = useQuery(accountsQuery);
  const [naming, setNaming] = useState<LedgerAccount | null>(null);
  const columns: Column<LedgerAccount>[] = [
    {
      key: 'name',
      head: 'Account',
      cell: ({ code, name }) => (
        <TextLink to="/ledger/entries" search={{ account: code }}>
          {name}
        </TextLink>
      ),
    },
    { key: 'code', head: 'Code', cell: ({ code }) => code },
    { key: 'kind', head: 'Kind', cell: ({ kind }) => kind },
    { key: 'own', head: 'Made by', cell: ({ own }) => (own ? 'the firm' : 'the program') },
    {
      key: 'act',
      head: 'Change',
      cell: (account) => (
        <Button size="compact-sm" variant="default" onClick={() => setNaming(account)} aria-label={`Rename ${account.name}`}>
          Rename
        </Button>
      ),
    },
  ];
  return (
    <Page title="Accounts" about="The chart of accounts. Names may change; codes stay, so that entries of before stay with their account.">
      <ProblemNote of={accounts.error} />
      {accounts.isPending ? <Loading /> : null}
      {accounts.data ? <DataTable caption="Accounts" columns={columns} rows={accounts.data} rowKey={({ code }) => code} /> : null}
      <AddAccount />
      {accounts.data ? <HandEntry accounts={accounts.data} /> : null}
      {naming ? <Rename account={naming} onClose={() => setNaming(null)} /> : null}
    </Page>
  );
}

const NAME = { name: 'Name' };

function Rename({ account, onClose }: { account: LedgerAccount; onClose: () => void }): ReactNode {
  const save = useSend(nameAccount, {
    refresh: ['money'],
    said: 'The account has a new name.',
    then: onClose,
    undo: (sent) => () => nameAccount({ ...sent, name: account.name }),
  });
  const fields = useFields({ name: account.name }, NAME, save.error, 'rename');
  return (
    <Modal opened onClose={onClose} title={`Rename ${account.name}`} closeButtonProps={{ 'aria-label': 'Close' }}>
      <Form
        error={save.error}
        labels={NAME}
        scope="rename"
        submit="Save the name"
        busy={save.isPending}
        onSubmit={() => save.mutate({ code: account.code, ...fields.values })}
      >
        <TextInput {...fields.text('name')} maxLength={60} data-autofocus />
      </Form>
    </Modal>
  );
}

const LABELS = { name: 'Name of the new account', kind: 'Kind' };

function AddAccount(): ReactNode {
  const start = { name: '', kind: 'expense' as NewAccount['kind'] };
  const save = useSend(addAccount, { refresh: ['money'], said: 'The account was added.', then: () => fields.setValues(start) });
  const fields = useFields(start, LABELS, save.error, 'account');
  return (
    <Section title="Add an account">
      <Form
        error={save.error}
        labels={LABELS}
        scope="account"
        submit="Add the account"
        busy={save.isPending}
        onSubmit={() => save.mutate({ ...fields.values, key: newId() })}
      >
        <TextInput {...fields.text('name')} maxLength={60} maw="24rem" />
        <NativeSelect {...fields.text('kind')} data={KINDS} mt="sm" maw="24rem" />
      </Form>
    </Section>
  );
}
