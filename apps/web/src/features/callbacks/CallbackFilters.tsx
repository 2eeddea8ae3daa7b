// What the list of callbacks is narrowed to. Every choice is in the address: it can be sent to somebody, and the way back works.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Group, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { CAUSES, KINDS, SPEAKERS, STATES } from '@backsight/contract/callbacks';
import { GROUPS } from '@backsight/contract/callbacks/lists';
import { callbackGroupsQuery } from '../../api/callbackLists.ts';
import { peopleQuery } from '../../api/people.ts';
import { showsMore, type ListSearch } from './listSearch.ts';
import { options, SYSTEMS } from './words.ts';

type Props = { search: ListSearch; judge: boolean; onChange: (change: Partial<Record<keyof ListSearch, string | undefined>>) => void };

const any = (label: string, list: { value: string; label: string }[]) => [{ value: '', label }, ...list];

export function CallbackFilters({ search, judge, onChange }: Props): ReactNode {
  const choose = (part: keyof ListSearch) => ({
    value: String(search[part] ?? ''),
    onChange: (event: { currentTarget: { value: string } }) => onChange({ [part]: event.currentTarget.value || undefined }),
  });
  const groups = options(GROUPS).filter(({ value }) => judge || (value !== 'step' && value !== 'cause'));
  return (
    <>
      <Words key={search.q ?? ''} first={search.q ?? ''} onSearch={(q) => onChange({ q })} />
      <SimpleGrid cols={{ base: 2, sm: 4 }} mb="sm" maw="60rem">
        <NativeSelect
          label="Show"
          {...choose('which')}
          value={search.which ?? 'open'}
          data={[
            { value: 'open', label: 'Open' },
            { value: 'closed', label: 'Closed' },
            { value: 'all', label: 'All' },
          ]}
        />
        <NativeSelect label="Kind" {...choose('kind')} data={any('Every kind', options(KINDS))} />
        <NativeSelect label="System" {...choose('system')} data={any('Every system', withChosen(options(SYSTEMS), search.system))} />
        <NativeSelect label="Count by" {...choose('by')} data={any('No groups: a list', groups)} />
      </SimpleGrid>
      <details data-narrows open={showsMore(search)} style={{ marginBottom: 'var(--bs-space-6)' }}>
        <summary>More</summary>
        <SimpleGrid cols={{ base: 2, sm: 4 }} mt="xs" maw="60rem" style={{ alignItems: 'end' }}>
          <NativeSelect label="State" {...choose('state')} data={any('Every state', options(STATES))} />
          <NativeSelect label="Who speaks" {...choose('speaker')} data={any('Anybody', options(SPEAKERS))} />
          <TextInput label="Month received" type="month" placeholder="2026-05" {...choose('received')} />
          <TextInput label="Month inspected" type="month" placeholder="2026-05" {...choose('inspected')} />
          <People search={search} choose={choose} />
          {judge ? <Traced search={search} choose={choose} /> : null}
          <Checkbox
            label="Danger only"
            checked={search.safety === 'yes'}
            onChange={(e) => onChange({ safety: e.currentTarget.checked ? 'yes' : undefined })}
          />
          <Checkbox
            label="Overdue only"
            checked={search.overdue === 'yes'}
            onChange={(e) => onChange({ overdue: e.currentTarget.checked ? 'yes' : undefined })}
          />
        </SimpleGrid>
      </details>
    </>
  );
}

type Choose = (part: keyof ListSearch) => { value: string; onChange: (event: { currentTarget: { value: string } }) => void };
type Chosen = { search: ListSearch; choose: Choose };

/** A value that the list does not know stays to be seen, and to be taken away. */
const withChosen = (list: { value: string; label: string }[], value: string | undefined) =>
  value === undefined || list.some((one) => one.value === value) ? list : [...list, { value, label: value }];

function Words({ first, onSearch }: { first: string; onSearch: (q: string | undefined) => void }): ReactNode {
  const [text, setText] = useState(first);
  return (
    <form
      role="search"
      onSubmit={(event) => {
        event.preventDefault();
        onSearch(text.trim() || undefined);
      }}
    >
      <Group mb="sm" align="end" wrap="nowrap">
        <TextInput
          label="Words, number, address or name"
          value={text}
          maxLength={200}
          onChange={(e) => setText(e.currentTarget.value)}
          flex={1}
          maw="24rem"
        />
        <Button type="submit" variant="default">
          Search
        </Button>
      </Group>
    </form>
  );
}

function People({ search, choose }: Chosen): ReactNode {
  const people = useQuery(peopleQuery).data ?? [];
  const names = people.map(({ id, name }) => ({ value: id, label: name }));
  return (
    <>
      <NativeSelect label="On the job" {...choose('person')} data={any('Anybody', withChosen(names, search.person))} />
      {search.pair ? (
        <NativeSelect label="Pair" {...choose('pair')} data={any('Any', [{ value: search.pair, label: namesOf(search.pair, names) }])} />
      ) : null}
    </>
  );
}

const namesOf = (pair: string, names: { value: string; label: string }[]): string =>
  pair
    .split(',')
    .map((id) => names.find(({ value }) => value === id)?.label ?? '?')
    .sort()
    .join(', ');

/** Steps that callbacks were traced to, and causes. */
function Traced({ search, choose }: Chosen): ReactNode {
  const steps = useQuery(callbackGroupsQuery({ which: 'all', by: 'step' })).data ?? [];
  const named = steps.filter(({ key }) => key !== '').map(({ key, label }) => ({ value: key, label }));
  return (
    <>
      <NativeSelect label="Traced step" {...choose('step')} data={any('Any or none', withChosen(named, search.step))} />
      {search.revision ? (
        <NativeSelect label="Revision" {...choose('revision')} data={any('Any', [{ value: search.revision, label: 'The one chosen' }])} />
      ) : null}
      <NativeSelect label="Cause" {...choose('cause')} data={any('Any or none', options(CAUSES))} />
    </>
  );
}
