// What narrows a list, under a name of one's own: the kept ones at the list, and the way to keep, rename and delete one.
import { useState, type FormEvent, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useLocation, useRouter } from '@tanstack/react-router';
import type { KeptSearch, SearchedList } from '@backsight/contract/people/keptSearches';
import { newId } from '../api/ids.ts';
import { deleteSearch, keepSearch, keptSearchesQuery, renameSearch } from '../api/keptSearches.ts';
import { ProblemNote } from './ProblemNote.tsx';
import { searchSaid } from './searchSaid.ts';
import { useSend } from './useSend.ts';
import classes from './KeptSearches.module.css';

const REFRESH = keptSearchesQuery.queryKey;

export default function KeptSearches({ list }: { list: SearchedList }): ReactNode {
  const search = useLocation({ select: ({ searchStr }) => searchSaid(searchStr) });
  const { data } = useQuery(keptSearchesQuery);
  const [naming, setNaming] = useState<string | null>(null);
  if (!data) return <div className={classes.row} />;
  const own = data.filter((one) => one.list === list);
  const shown = own.find((one) => searchSaid(one.search) === search);
  const named = naming === search;
  return (
    <section aria-label="Kept searches" className={classes.row}>
      {own.length === 0 && search === '' ? <p className={classes.soft}>Narrow the list to keep a search by name.</p> : null}
      {own.map((one) => (
        <To key={one.id} kept={one} here={one.id === shown?.id} />
      ))}
      {search === '' || named ? null : (
        <Button size="compact-sm" variant="default" onClick={() => setNaming(search)}>
          {shown ? 'Rename' : 'Keep this search'}
        </Button>
      )}
      {shown && !named ? <Remove kept={shown} /> : null}
      {named ? <Name key={search} kept={shown} list={list} search={search} done={() => setNaming(null)} /> : null}
    </section>
  );
}

function To({ kept: { list, search, name }, here }: { kept: KeptSearch; here: boolean }): ReactNode {
  const router = useRouter();
  return (
    <a
      href={list + search}
      aria-current={here ? 'page' : undefined}
      className={classes.link}
      onClick={(event) => {
        if (event.ctrlKey || event.metaKey || event.shiftKey) return;
        event.preventDefault();
        void router.navigate({ href: list + search });
      }}
    >
      {name}
    </a>
  );
}

function Remove({ kept }: { kept: KeptSearch }): ReactNode {
  const remove = useSend(deleteSearch, {
    refresh: REFRESH,
    said: `"${kept.name}" is deleted.`,
    undo: () => () => keepSearch({ ...kept, key: newId() }),
  });
  return (
    <>
      <Button size="compact-sm" variant="default" loading={remove.isPending} onClick={() => remove.mutate({ id: kept.id })}>
        Delete
      </Button>
      <ProblemNote of={remove.error} />
    </>
  );
}

type NameProps = { kept: KeptSearch | undefined; list: SearchedList; search: string; done: () => void };

/** A name for the search that is shown, or another one for it. */
function Name({ kept, list, search, done }: NameProps): ReactNode {
  const [name, setName] = useState(kept?.name ?? '');
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const then = { refresh: REFRESH, then: done };
  const keep = useSend(keepSearch, { ...then, said: 'The search is kept: here, and in the go-to box.' });
  const rename = useSend(renameSearch, { ...then, said: 'It has its new name.' });
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (kept) rename.mutate({ id: kept.id, name });
    else keep.mutate({ ...ids, list, search, name });
  };
  return (
    <form className={classes.row} onSubmit={send}>
      <TextInput
        className={classes.name}
        aria-label="Name of this search"
        placeholder="Name of this search"
        size="xs"
        maxLength={60}
        required
        autoFocus
        value={name}
        onChange={(event) => setName(event.currentTarget.value)}
      />
      <Button size="compact-sm" type="submit" loading={keep.isPending || rename.isPending}>
        Keep it
      </Button>
      <Button size="compact-sm" variant="default" onClick={done}>
        Leave it
      </Button>
      <ProblemNote of={keep.error ?? rename.error} />
    </form>
  );
}
