// Calls about people of the firm and signing in.
import { queryOptions, useSuspenseQuery } from '@tanstack/react-query';
import { peopleRoutes as routes } from '@backsight/contract/people';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';
import { onPhone } from './phone/replies.ts';
import { noteSignIn } from './signedOut.ts';

export type NewPerson = BodyOf<typeof routes.add>;
export type PersonChange = BodyOf<typeof routes.change>;

/** Who is signed in. The shell asks before any screen of it shows, so screens inside may rely on it. */
export const meQuery = queryOptions({
  queryKey: ['me'],
  queryFn: ({ signal }) => call(routes.me, { signal }),
  staleTime: 5 * 60_000,
  refetchInterval: ({ state }) => (state.data?.pastPercent === undefined ? false : 5_000),
  ...onPhone,
  meta: { ...onPhone.meta, quietWhenSignedOut: true },
});
export const useMe = () => useSuspenseQuery(meQuery).data;

export const peopleQuery = queryOptions({ queryKey: ['people'], queryFn: ({ signal }) => call(routes.list, { signal }) });
export const personQuery = (id: string) =>
  queryOptions({ queryKey: ['people', id], queryFn: ({ signal }) => call(routes.one, { params: { id }, signal }) });

export const signIn = async (body: BodyOf<typeof routes.signIn>) => {
  const reply = await call(routes.signIn, { body });
  noteSignIn();
  return reply;
};
export const askForPasswordLink = (body: BodyOf<typeof routes.forgotten>) => call(routes.forgotten, { body });
export const choosePasswordByLink = (body: BodyOf<typeof routes.byLink>) => call(routes.byLink, { body });
export const invitePerson = ({ id }: { id: string }) => call(routes.invite, { params: { id } });
export const signOut = () => call(routes.signOut, {});
export const addPerson = ({ key, ...body }: NewPerson & { key: string }) => call(routes.add, { body, key });
export const changePerson = (sent: { id: string; version: number; change: PersonChange }) =>
  call(routes.change, { params: { id: sent.id }, version: sent.version, body: sent.change });

type NewPassword = { id: string; present: string; password: string };
export const changeOwnPassword = ({ present, password }: NewPassword) => call(routes.ownPassword, { body: { present, password } });
/** `present`: the own one of the owner who gives it. */
export const setPassword = ({ id, present, password }: NewPassword) =>
  call(routes.setPassword, { params: { id }, body: { owners: present, password } });
