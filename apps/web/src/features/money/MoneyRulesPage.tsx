// The firm's rules about money: payers, deposits, closings, returned payments, sales tax.
import type { ReactNode } from 'react';
import { Checkbox, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { MoneyRules } from '@backsight/contract/fees/terms';
import { changeMoneyRules, moneyRulesQuery } from '../../api/fees.ts';
import { useMe } from '../../api/people.ts';
import { centsOf, dollarsOf } from '../../ui/amount.ts';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = {
  severalPayers: 'Several parties may pay for one job',
  depositPercent: 'Usual deposit, percent of the total',
  closingDays: 'Days from the visit until a fee billed to the closing is due',
  depositClosesGate: 'A deposit that is not in keeps the visit from starting',
  paidBeforeHandOver: 'A report is handed over only once the fee is paid',
  returnedFeeCents: 'Charge for a returned payment, dollars (0: none)',
  taxName: 'Name of the tax',
  taxThousandths: 'Rate in percent (0: no sales tax)',
  taxServices: 'What is taxed',
};

export function MoneyRulesPage(): ReactNode {
  const rules = useQuery(moneyRulesQuery);
  const owner = useMe().roles.includes('owner');
  return (
    <Page
      title="Rules about money"
      about="They count for invoices that are issued, visits that begin and reports that leave from now on."
      width="narrow"
    >
      <ProblemNote of={rules.error} />
      {rules.isPending ? <Loading /> : null}
      {rules.data ? <RulesForm key={rules.data.version} rules={rules.data} mayChange={owner} /> : null}
    </Page>
  );
}

function RulesForm({ rules, mayChange }: { rules: MoneyRules; mayChange: boolean }): ReactNode {
  const save = useSend(changeMoneyRules, { refresh: ['money'], said: 'The rules were saved.' });
  const fields = useFields(
    {
      severalPayers: rules.severalPayers,
      depositPercent: String(rules.depositPercent),
      closingDays: String(rules.closingDays),
      depositClosesGate: rules.depositClosesGate,
      paidBeforeHandOver: rules.paidBeforeHandOver,
      returnedFeeCents: dollarsOf(rules.returnedFeeCents),
      taxName: rules.taxName,
      taxThousandths: String(rules.taxThousandths / 1000),
      taxServices: rules.taxServices,
    },
    LABELS,
    save.error,
    'rules',
  );
  const v = fields.values;
  const send = () =>
    save.mutate({
      version: rules.version,
      severalPayers: v.severalPayers,
      depositPercent: Number(v.depositPercent),
      closingDays: Number(v.closingDays),
      depositClosesGate: v.depositClosesGate,
      paidBeforeHandOver: v.paidBeforeHandOver,
      returnedFeeCents: centsOf(v.returnedFeeCents),
      taxName: v.taxName,
      taxThousandths: Math.round(Number(v.taxThousandths) * 1000),
      taxServices: v.taxServices,
    });
  const taxed = fields.value('taxServices');
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="rules"
      draft={fields.draft}
      submit="Save the rules"
      busy={save.isPending}
      onSubmit={send}
    >
      <fieldset disabled={!mayChange} style={{ border: 0, padding: 0, margin: 0 }}>
        <Checkbox
          {...fields.check('severalPayers')}
          description="Left out by default: from memory, Wis. Stat. 440.975 and following forbid taking pay from two parties for one inspection. Ask an attorney before you allow it."
        />
        <TextInput {...fields.text('depositPercent')} mt="md" inputMode="numeric" />
        <TextInput
          {...fields.text('closingDays')}
          mt="sm"
          inputMode="numeric"
          description="The fee is due then whether or not the sale closes."
        />
        <TextInput {...fields.text('returnedFeeCents')} mt="sm" inputMode="decimal" />
        <Section title="What is paid first">
          <p>
            Policy of the firm; no law is claimed for it. What is missing can be let pass with a reason by the owner or a lead inspector.
          </p>
          <Checkbox
            {...fields.check('depositClosesGate')}
            description="Otherwise the pair and the office are warned, and the visit may begin. A fee that is due at booking always comes first."
          />
          <Checkbox
            {...fields.check('paidBeforeHandOver')}
            mt="md"
            description="A fee that is billed to the closing never keeps a report back."
          />
        </Section>
        <Section title="Sales tax">
          <p>The rate is taken of what is taxable on an invoice together and rounded half up to a cent, once.</p>
          <TextInput {...fields.text('taxName')} maxLength={40} />
          <TextInput {...fields.text('taxThousandths')} mt="sm" inputMode="decimal" />
          <Checkbox.Group {...taxed} value={v.taxServices} onChange={(chosen) => taxed.onChange(chosen as never)} mt="sm">
            {[{ key: '', name: 'The inspection itself' }, ...rules.services].map(({ key, name }) => (
              <Checkbox key={key} value={key} label={name} mt="xs" />
            ))}
          </Checkbox.Group>
        </Section>
      </fieldset>
    </Form>
  );
}
