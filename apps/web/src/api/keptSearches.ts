// Calls about the searches that a person keeps under a name.
import { queryOptions } from '@tanstack/react-query';
import { keptSearchRoutes as routes, type KeptSearch } from '@backsight/contract/people/keptSearches';
import { call } from './call.ts';

export const keptSearchesQuery = queryOptions({
  queryKey: ['kept-searches'],
  queryFn: ({ signal }) => call(routes.list, { signal }),
  staleTime: 5 * 60_000,
});
export const keepSearch = ({ key, ...body }: KeptSearch & { key: string }) => call(routes.keep, { body, key });
export const renameSearch = ({ id, name }: { id: string; name: string }) => call(routes.rename, { params: { id }, body: { name } });
export const deleteSearch = ({ id }: { id: string }) => call(routes.remove, { params: { id } });
