// Calls about one's own sessions and second factor.
import { queryOptions } from '@tanstack/react-query';
import { securityRoutes as routes } from '@backsight/contract/people/security';
import { call } from './call.ts';

export const securityQuery = queryOptions({ queryKey: ['security'], queryFn: ({ signal }) => call(routes.security, { signal }) });

type Said = { password: string };
export const beginFactor = (body: Said) => call(routes.begin, { body });
export const confirmFactor = (body: { code: string }) => call(routes.confirm, { body });
export const removeFactor = (body: Said) => call(routes.remove, { body });
export const renewCodes = (body: Said) => call(routes.renewCodes, { body });
export const endSession = ({ id }: { id: string }) => call(routes.endSession, { params: { id } });
export const endOtherSessions = (_: null) => call(routes.endOthers, {});
export const resetFactor = ({ id }: { id: string }) => call(routes.reset, { params: { id } });
