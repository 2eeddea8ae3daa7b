// The insurer's certificates: the newest of each policy is what goes to an agent or a relocation firm.
import type { ReactNode } from 'react';
import { FileInput, NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { CertificateShown, InsuredBy } from '@backsight/contract/mail/contacts';
import { addCertificate, certificatesQuery, insuredByQuery, insurerCertificateAddress } from '../../api/contacts.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { asBase64 } from '../../ui/file.ts';
import { Form } from '../../ui/Form.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';

const COLUMNS: Column<CertificateShown>[] = [
  { key: 'policy', head: 'Policy', cell: ({ policy }) => policy },
  { key: 'ends', head: 'Policy ends', cell: ({ endsOn }) => <Day day={endsOn} /> },
  { key: 'file', head: 'File', cell: ({ id, name }) => <a href={insurerCertificateAddress(id)}>{name}</a> },
  { key: 'at', head: 'On file since', oneLine: true, cell: ({ recordedAt }) => <When at={recordedAt} /> },
];

export function CertificatesPage(): ReactNode {
  const { roles } = useMe();
  const found = useQuery(certificatesQuery);
  return (
    <Page
      title="Certificates of insurance"
      about="The newest of each policy in force goes to an agent or a relocation firm from the contacts of a job."
      actions={<TextLink to="/firm">Firm</TextLink>}
    >
      <ProblemNote of={found.error} />
      {found.data?.length === 0 ? <Empty>No certificate is on file.</Empty> : null}
      {found.data && found.data.length > 0 ? (
        <DataTable caption="Certificates" columns={COLUMNS} rows={found.data} rowKey={({ id }) => id} />
      ) : null}
      {roles.some((role) => role === 'owner' || role === 'office_manager') ? (
        <Add />
      ) : (
        <p>An owner or the office puts certificates on file.</p>
      )}
    </Page>
  );
}

const KINDS: Record<InsuredBy['kind'], string> = { professional: 'Professional liability', general: 'General liability' };
const LABELS = { policyId: 'Policy', file: 'PDF, JPEG or PNG from the insurer' };
type Typed = { policyId: string; file: File | null };

function Add(): ReactNode {
  const insured = useQuery(insuredByQuery);
  const policies = insured.data ?? [];
  const add = useSend(
    async ({ policyId, file }: Typed) =>
      addCertificate({ id: newId(), policyId, file: { name: file?.name ?? '', base64: file ? await asBase64(file) : '' } }),
    { refresh: ['certificates'], said: 'The certificate is on file.', then: () => fields.set('file', null) },
  );
  const fields = useFields<Typed>({ policyId: '', file: null }, LABELS, add.error);
  const { value: _, onChange: __, ...file } = fields.value('file');
  const policyId = fields.values.policyId || (policies[0]?.id ?? '');
  return (
    <Section title="Put one on file">
      {insured.data?.length === 0 ? <Empty>No policy is in force. An owner puts it on file under Firm.</Empty> : null}
      <ProblemNote of={insured.error} />
      <Form
        error={add.error}
        labels={LABELS}
        submit="Put it on file"
        busy={add.isPending}
        onSubmit={() => add.mutate({ ...fields.values, policyId })}
      >
        <NativeSelect
          {...fields.text('policyId')}
          value={policyId}
          data={policies.map(({ id, kind, insurer, number }) => ({ value: id, label: `${KINDS[kind]}: ${insurer}, ${number}` }))}
        />
        <FileInput
          mt="sm"
          {...file}
          accept="application/pdf,image/jpeg,image/png"
          value={fields.values.file}
          onChange={(chosen) => fields.set('file', chosen)}
        />
      </Form>
    </Section>
  );
}
