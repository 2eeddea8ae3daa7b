// The town of the house: one of the firm's, or another one with its ZIP code, which says where that is.
import type { ReactNode } from 'react';
import { NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { townsQuery } from '../../api/jobs.ts';
import { asProblem } from '../../api/problemError.ts';
import { placeQuery } from '../../api/travel.ts';
import { placeAsked, type Draft } from './draft.ts';

const ELSEWHERE = '*';

export function TownInput({ draft, change }: { draft: Draft; change: (part: Partial<Draft>) => void }): ReactNode {
  const towns = useQuery(townsQuery);
  const names = (towns.data ?? []).map(({ name }) => ({ value: name, label: name }));
  const choose = (value: string) =>
    change(
      value === ELSEWHERE
        ? { elsewhere: true, town: '', state: '', start: null }
        : { elsewhere: false, town: value, zip: '', state: '', start: null },
    );
  return (
    <>
      <NativeSelect
        label="Town"
        value={draft.elsewhere ? ELSEWHERE : draft.town}
        onChange={(event) => choose(event.currentTarget.value)}
        data={[{ value: '', label: '' }, ...names, { value: ELSEWHERE, label: 'Another town (ZIP)' }]}
        required
      />
      {draft.elsewhere ? <Elsewhere draft={draft} change={change} /> : null}
    </>
  );
}

function Elsewhere({ draft, change }: { draft: Draft; change: (part: Partial<Draft>) => void }): ReactNode {
  const asked = placeAsked(draft);
  const place = useQuery(placeQuery(asked));
  const found = place.data
    ? `Placed in the middle of ${place.data.name}, ${draft.zip}: approximate`
    : draft.zip.length === 5 && draft.town.trim() === ''
      ? 'Say the name of the town too'
      : 'Five digits';
  return (
    <>
      <TextInput
        label="Name of the town"
        value={draft.town}
        onChange={(event) => change({ town: event.currentTarget.value, start: null })}
        autoComplete="off"
        required
      />
      <TextInput
        label="ZIP code"
        value={draft.zip}
        onChange={(event) => change({ zip: event.currentTarget.value.trim(), state: '', start: null })}
        inputMode="numeric"
        autoComplete="off"
        maxLength={5}
        required
        description={found}
        inputWrapperOrder={['label', 'input', 'description', 'error']}
        error={place.error ? (asProblem(place.error)?.message ?? 'The place could not be asked.') : undefined}
      />
    </>
  );
}
