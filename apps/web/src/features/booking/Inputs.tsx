// Who calls, which house, what is known of it.
import { memo, useState, type ReactNode } from 'react';
import { Button, Checkbox, Fieldset, Group, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { PARTY_ROLES, SOURCES, TERMS, type PartyRole, type Source, type Terms } from '@backsight/contract/jobs';
import type { FactKey } from '@backsight/domain/shared/facts';
import { FACTS } from '@backsight/domain/shared/facts';
import { partiesQuery } from '../../api/jobs.ts';
import { newId } from '../../api/ids.ts';
import { FactInput } from '../../ui/FactInput.tsx';
import { CallerJobs } from './CallerJobs.tsx';
import type { Draft } from './draft.ts';
import { StateInput, StateRules } from './StateInput.tsx';
import { TownInput } from './TownInput.tsx';
import { useOnFile } from './useHouseState.ts';
import { useSettled } from './useSettled.ts';
import classes from './desk.module.css';

type Props = { draft: Draft; change: (part: Partial<Draft>) => void };
const options = (words: Record<string, string>) => Object.entries(words).map(([value, label]) => ({ value, label }));

/** Facts that change most prices and lengths; the others are one fold away. */
const FIRST: readonly FactKey[] = ['livingArea', 'yearBuilt', 'kind', 'foundation'];
const OTHERS = (Object.keys(FACTS) as FactKey[]).filter((fact) => !FIRST.includes(fact));

export const CallerInputs = memo(function CallerInputs({ draft, change }: Props): ReactNode {
  const text = useSettled(draft.known ? '' : draft.caller.trim());
  const found = useQuery({ ...partiesQuery(text), placeholderData: keepPreviousData });
  const rename = (caller: string) => change({ caller, ...(draft.known ? { known: false, callerId: newId() } : {}) });
  return (
    <Fieldset legend="Who calls">
      <SimpleGrid cols={{ base: 1, xs: 2 }} spacing="sm">
        <TextInput
          label="Name"
          value={draft.caller}
          onChange={(event) => rename(event.currentTarget.value)}
          autoComplete="off"
          autoFocus
          required
        />
        <NativeSelect
          label="Is the"
          value={draft.role}
          onChange={(event) => change({ role: event.currentTarget.value as PartyRole })}
          data={options(PARTY_ROLES)}
        />
        <TextInput
          label="Phone"
          type="tel"
          value={draft.phone}
          onChange={(event) => change({ phone: event.currentTarget.value })}
          autoComplete="off"
          disabled={draft.known}
        />
        <TextInput
          label="E-mail address"
          type="email"
          value={draft.email}
          onChange={(event) => change({ email: event.currentTarget.value })}
          autoComplete="off"
          disabled={draft.known}
        />
        {draft.role === 'client' ? null : (
          <TextInput
            label="Name of the client"
            value={draft.client}
            onChange={(event) => change({ client: event.currentTarget.value })}
            autoComplete="off"
          />
        )}
      </SimpleGrid>
      {text && !draft.known ? (
        <Group gap="xs" mt="xs">
          {found.data?.slice(0, 3).map((one) => (
            <Button
              key={one.id}
              size="compact-sm"
              variant="default"
              onClick={() => change({ known: true, callerId: one.id, caller: one.name, phone: one.phone ?? '', email: one.email ?? '' })}
            >
              On file: {one.name}
              {one.phone ? `, ${one.phone}` : ''}
              {one.askOwner ? ' (ask the owner)' : ''}
            </Button>
          ))}
        </Group>
      ) : null}
      {draft.known ? (
        <>
          <p className={classes.hint}>On file. Another name begins a new person.</p>
          <CallerJobs name={draft.caller} />
        </>
      ) : null}
    </Fieldset>
  );
});

export const HouseInputs = memo(function HouseInputs({ draft, change }: Props): ReactNode {
  const known = useOnFile(draft);
  const fact = (key: FactKey) => <FactInput key={key} fact={key} facts={draft.facts} onChange={(facts) => change({ facts })} />;
  return (
    <Fieldset legend="Which house">
      <SimpleGrid cols={{ base: 1, xs: 2 }} spacing="sm">
        <TextInput
          label="Street address"
          value={draft.address}
          onChange={(event) => change({ address: event.currentTarget.value })}
          autoComplete="off"
          required
        />
        <TownInput draft={draft} change={change} />
        <StateInput draft={draft} change={change} />
        {FIRST.map(fact)}
      </SimpleGrid>
      <StateRules draft={draft} />
      {known?.onFile ? (
        <p role="status">
          A file exists for this property{known.inspectedBefore ? '; a lead inspector decides whether the same pair may go' : ''}.
          {known.askOwner ? ' Ask the owner before booking for this house.' : ''}
        </p>
      ) : null}
      <MoreOfHouse draft={draft} change={change} />
    </Fieldset>
  );
});

/** Three in four inputs of the page: drawn once somebody unfolds them, so that the others answer at once. What is typed there stays when it is folded. */
function MoreOfHouse({ draft, change }: Props): ReactNode {
  const [drawn, setDrawn] = useState(false);
  const fact = (key: FactKey) => <FactInput key={key} fact={key} facts={draft.facts} onChange={(facts) => change({ facts })} />;
  return (
    <details style={{ marginTop: 'var(--bs-space-5)' }} onToggle={(event) => event.currentTarget.open && setDrawn(true)}>
      <summary>More about the house, the place and the terms</summary>
      {drawn ? (
        <SimpleGrid cols={{ base: 1, xs: 2 }} spacing="sm" mt="sm">
          {OTHERS.map(fact)}
          <TextInput
            label="Latitude, when known exactly"
            value={draft.lat}
            onChange={(event) => change({ lat: event.currentTarget.value })}
            inputMode="decimal"
          />
          <TextInput
            label="Longitude"
            value={draft.lon}
            onChange={(event) => change({ lon: event.currentTarget.value })}
            inputMode="decimal"
          />
          <NativeSelect
            label="Payment"
            value={draft.terms}
            onChange={(event) => change({ terms: event.currentTarget.value as Terms })}
            data={options(TERMS)}
          />
          <TextInput
            label="Day by which the client must object"
            type="date"
            value={draft.objectionOn}
            onChange={(event) => change({ objectionOn: event.currentTarget.value })}
          />
          <NativeSelect
            label="Heard of us through"
            value={draft.source}
            onChange={(event) => change({ source: event.currentTarget.value as Source })}
            data={options(SOURCES)}
          />
          <Checkbox label="Let to a tenant" checked={draft.tenant} onChange={(event) => change({ tenant: event.currentTarget.checked })} />
        </SimpleGrid>
      ) : null}
    </details>
  );
}
