// How many callbacks fit in each group, each one click from its list.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { CAUSES } from '@backsight/contract/callbacks';
import type { CallbackGroup } from '@backsight/contract/callbacks/lists';
import { callbackGroupsQuery, type GroupSearch } from '../../api/callbackLists.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Money } from '../../ui/Money.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import type { ListSearch } from './listSearch.ts';
import { SYSTEMS } from './words.ts';

type By = GroupSearch['by'];
const HEADS: Record<By, string> = {
  system: 'System',
  received: 'Month received',
  inspected: 'Month inspected',
  pair: 'Pair',
  step: 'Traced step',
  cause: 'Cause',
};
const NONE: Record<By, string> = {
  system: 'None named',
  received: 'No day',
  inspected: 'Not inspected yet',
  pair: 'Nobody was there yet',
  step: 'No step named',
  cause: 'Not concluded',
};

export const systemName = (key: string): string => (SYSTEMS as Record<string, string>)[key] ?? key.replaceAll('_', ' ');

function nameOf(by: By, { key, label }: CallbackGroup): string {
  if (key === '') return NONE[by];
  if (by === 'system') return systemName(key);
  return by === 'cause' ? ((CAUSES as Record<string, string>)[key] ?? key) : label || key;
}

/** The list of one group; there is none for what is not named. */
function narrowed(search: ListSearch, by: By, key: string): ListSearch {
  return { ...search, by: undefined, before: undefined, [by]: key };
}

const columns = (search: ListSearch, by: By, withMoney: boolean): Column<CallbackGroup>[] => [
  {
    key: 'group',
    head: HEADS[by],
    cell: (g) =>
      g.key === '' ? (
        NONE[by]
      ) : (
        <TextLink to="/callbacks" search={narrowed(search, by, g.key)}>
          {nameOf(by, g)}
        </TextLink>
      ),
  },
  { key: 'n', head: 'Callbacks', align: 'right', cell: (g) => g.callbacks },
  { key: 'open', head: 'Of these open', align: 'right', cell: (g) => g.open },
  ...(withMoney
    ? (
        [
          ['paidCents', 'Paid'],
          ['reservedCents', 'Set aside'],
          ['recoveredCents', 'Recovered'],
          ['incurredCents', 'Incurred'],
        ] as const
      ).map(([part, head]): Column<CallbackGroup> => ({
        ...{ key: part, head, align: 'right' },
        cell: (g) => (g.money ? <Money cents={g.money[part]} /> : ''),
      }))
    : []),
];

export function CallbackGroups({ search, by }: { search: ListSearch; by: By }): ReactNode {
  const { before: _, ...rest } = search;
  const { data, error, isPending } = useQuery(callbackGroupsQuery({ ...rest, by }));
  return (
    <>
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {by === 'pair' ? (
        <p>
          By name. A callback found is a procedure&rsquo;s failure first, and who went more often and to older houses has more of them:
          these counts say nothing of how well anybody works.
        </p>
      ) : null}
      {data && data.length > 0 ? (
        <DataTable
          caption={`Callbacks by ${HEADS[by].toLowerCase()}`}
          columns={columns(
            search,
            by,
            data.some(({ money }) => money !== undefined),
          )}
          rows={data}
          rowKey={(g) => g.key}
        />
      ) : null}
      {data?.length === 0 ? <p>Nothing fits, so there is nothing to count.</p> : null}
    </>
  );
}
