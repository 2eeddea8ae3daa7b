// Replies that must be there without signal: kept on the phone for the person who read them, and given back before the first screen.
import { hydrate, type Query, type QueryClient } from '@tanstack/react-query';
import { forgetPlaces } from './recent.ts';
import { phone, type KeptReply } from './store.ts';

export const A_DAY = 86_400_000;
const LONGEST = 7 * A_DAY;

/** Options of a query whose reply is kept on the phone. */
export const onPhone = { meta: { kept: true }, gcTime: A_DAY } as const;
/** The same for what stays on the phone only for the day on which it was read. */
export const onPhoneToday = { meta: { kept: true, today: true }, gcTime: A_DAY } as const;

/** Fills the cache with what the person who was signed in last has read here; then keeps what is read from now on. */
export async function restoreReplies(queries: QueryClient): Promise<void> {
  const db = await phone();
  const personId = await db.get('signedIn', 'who');
  const kept = await db.getAll('replies');
  for (const reply of kept.filter(isOver)) await db.delete('replies', [reply.personId, reply.name]);
  fill(
    queries,
    kept.filter((reply) => reply.personId === personId && !isOver(reply)),
  );
  queries.getQueryCache().subscribe(({ type, query }) => {
    if (type !== 'updated' || !query.meta?.['kept'] || query.state.status !== 'success') return;
    void store(queries, query);
    if (query.queryKey.length === 1) void dropReplies(queries, (one) => one.state.status === 'success' && isOver(keptOf(one)));
  });
}

const dayOf = (at: number): string => new Date(at).toDateString();
const isOver = ({ at, today }: Pick<KeptReply, 'at' | 'today'>): boolean =>
  at < Date.now() - LONGEST || (today === true && dayOf(at) !== dayOf(Date.now()));
const keptOf = ({ state, meta }: Query): Pick<KeptReply, 'at' | 'today'> => ({
  at: state.dataUpdatedAt,
  ...(meta?.['today'] ? { today: true } : {}),
});

function fill(queries: QueryClient, replies: readonly KeptReply[]): void {
  const state = (reply: KeptReply) => ({
    data: reply.data,
    dataUpdatedAt: reply.at,
    dataUpdateCount: 1,
    error: null,
    errorUpdateCount: 0,
    errorUpdatedAt: 0,
    fetchFailureCount: 0,
    fetchFailureReason: null,
    fetchMeta: null,
    isInvalidated: true, // read again as soon as a screen asks for it
    status: 'success' as const,
    fetchStatus: 'idle' as const,
  });
  const kept = replies.map((reply) => ({
    dehydratedAt: reply.at,
    queryKey: reply.key,
    queryHash: reply.name,
    state: state(reply),
    meta: reply.today ? onPhoneToday.meta : onPhone.meta,
  }));
  hydrate(queries, { mutations: [], queries: kept }, { defaultOptions: { queries: { gcTime: A_DAY } } });
}

/** Puts a reply that was made on this phone where the service's would be, and keeps it. @throws when the phone cannot keep it */
export async function putReply(queries: QueryClient, key: readonly unknown[], data: unknown): Promise<void> {
  const query = queries.getQueryCache().build(queries, queries.defaultQueryOptions({ queryKey: key, ...onPhone }));
  queries.setQueryData(key, data);
  await store(queries, query);
}

/** Takes kept replies off the phone. */
export async function dropReplies(queries: QueryClient, which: (query: Query) => boolean): Promise<void> {
  const personId = ownerOf(queries);
  for (const query of queries.getQueryCache().findAll({ predicate: (one) => one.meta?.['kept'] === true && which(one) })) {
    if (personId !== undefined) await (await phone()).delete('replies', [personId, query.queryHash]);
    queries.getQueryCache().remove(query);
  }
}

const ownerOf = (queries: QueryClient): string | undefined => queries.getQueryData<{ id: string }>(['me'])?.id;
const writing = new Map<string, unknown>();

/** Fetching sets off several updates of one query: a reply is written once. */
async function store(queries: QueryClient, query: Query): Promise<void> {
  const { data } = query.state;
  const personId = ownerOf(queries);
  if (personId === undefined || data === undefined || writing.get(query.queryHash) === data) return;
  writing.set(query.queryHash, data);
  const db = await phone();
  if (query.queryKey[0] === 'me') await db.put('signedIn', personId, 'who');
  await db.put('replies', { personId, name: query.queryHash, key: query.queryKey, data, ...keptOf(query) });
}

/** Takes what a person has read off this phone. What was not sent stays, unseen, until they sign in again. */
export async function forgetReplies(): Promise<void> {
  const db = await phone();
  writing.clear();
  forgetPlaces();
  await db.clear('replies');
  await db.delete('signedIn', 'who');
}
