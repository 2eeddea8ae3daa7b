// Sets which checks a kind of kit needs, and after how many days each is due again.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, NumberInput, SimpleGrid } from '@mantine/core';
import { CHECK_KINDS, type CheckKind, type KitItem, type KitKind } from '@backsight/contract/people/kit';
import { setCheckNeeds } from '../../api/personFile.ts';
import { Form } from '../../ui/Form.tsx';
import { useFields, type Fields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

type Kit = { kinds: KitKind[]; items: KitItem[] };
type Days = Record<CheckKind, number | ''>;
const NAMES = Object.keys(CHECK_KINDS) as CheckKind[];
const LABELS = Object.fromEntries(NAMES.map((name) => [name, `Days between: ${CHECK_KINDS[name]}`])) as Record<CheckKind, string>;

const daysOf = (kit: Kit, kind: string): Days => {
  const needed = kit.items.find((item) => item.kind === kind && item.endedOn === null)?.checks ?? [];
  return Object.fromEntries(NAMES.map((name) => [name, needed.find(({ checkKind }) => checkKind === name)?.everyDays ?? ''])) as Days;
};

export function CheckNeeds({ kit, done }: { kit: Kit; done: () => void }): ReactNode {
  const pooled = kit.kinds.filter(({ key, carriedByAll }) => !carriedByAll && kit.items.some((item) => item.kind === key));
  const [kind, setKind] = useState(pooled[0]?.key ?? '');
  return (
    <>
      <NativeSelect
        label="Kind"
        mb="sm"
        maw="20rem"
        value={kind}
        onChange={(event) => setKind(event.currentTarget.value)}
        data={pooled.map(({ key, name }) => ({ value: key, label: name }))}
      />
      <Needs key={kind} kind={kind} days={daysOf(kit, kind)} done={done} />
    </>
  );
}

function Needs({ kind, days, done }: { kind: string; days: Days; done: () => void }): ReactNode {
  const save = useSend(setCheckNeeds, { refresh: ['kit'], said: 'The checks are set.', then: done });
  const fields = useFields(days, LABELS, save.error, 'needs', kind);
  const send = () =>
    save.mutate({
      kind,
      checks: NAMES.flatMap((checkKind) => {
        const everyDays = fields.values[checkKind];
        return everyDays === '' ? [] : [{ checkKind, everyDays }];
      }),
    });
  return (
    <Form
      error={save.error}
      labels={LABELS}
      scope="needs"
      draft={fields.draft}
      submit="Set these checks"
      busy={save.isPending}
      onSubmit={send}
      besides={
        <Button variant="default" onClick={done}>
          Leave without saving
        </Button>
      }
    >
      <SimpleGrid cols={{ base: 1, xs: 3 }}>
        {NAMES.map((name) => (
          <EveryDays key={name} fields={fields} name={name} />
        ))}
      </SimpleGrid>
      <p style={{ color: 'var(--bs-ink-soft)' }}>Blank: this kind needs no such check. What the maker of the instrument says counts.</p>
    </Form>
  );
}

function EveryDays({ fields, name }: { fields: Fields<Days>; name: CheckKind }): ReactNode {
  const { value, onChange, ...rest } = fields.value(name);
  return (
    <NumberInput
      {...rest}
      value={value as number | ''}
      onChange={(typed) => onChange(typed === '' ? '' : Number(typed))}
      min={1}
      max={1100}
      allowDecimal={false}
    />
  );
}
