// Calls about one's own sessions and second factor.
import { queryOptions } from '@tanstack/react-query';
import { securityRoutes as routes } from '@backsight/contract/people/security';
import { call } from './call.ts';

export const securityQuery = queryOptions({ queryKey: ['security'], queryFn: ({ signal }) => call(routes.security, { signal }) });

type Password = { password: string };
type Both = { password: string; code: string };
export const beginFactor = (body: Password) => call(routes.begin, { body });
export const confirmFactor = (body: { code: string }) => call(routes.confirm, { body });
export const removeFactor = ({ password, code }: Both) => call(routes.remove, { body: { password, code } });
export const renewCodes = ({ password, code }: Both) => call(routes.renewCodes, { body: { password, code } });
/** One of one's own other sessions, or all of them. */
export const endSessions = (body: { password: string; id?: string }) => call(routes.endSessions, { body });
export const endAllSessions = ({ id, password }: { id: string; password: string }) =>
  call(routes.endAll, { params: { id }, body: { password } });
export const resetFactor = ({ id, password }: { id: string; password: string }) =>
  call(routes.reset, { params: { id }, body: { password } });
