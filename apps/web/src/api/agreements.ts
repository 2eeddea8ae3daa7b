// Calls about agreement texts, agreements and their signers.
import { queryOptions } from '@tanstack/react-query';
import { agreementsRoutes as routes } from '@backsight/contract/agreements';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

export const textsQuery = queryOptions({ queryKey: ['agreements', 'texts'], queryFn: ({ signal }) => call(routes.texts, { signal }) });
export const agreementQuery = (jobId: string) =>
  queryOptions({ queryKey: ['agreements', 'job', jobId], queryFn: ({ signal }) => call(routes.ofJob, { params: { id: jobId }, signal }) });
export const gateQuery = (visitId: string) =>
  queryOptions({ queryKey: ['visit', visitId, 'gate'], queryFn: ({ signal }) => call(routes.gate, { params: { id: visitId }, signal }) });

type Signing = BodyOf<typeof routes.signOnSite>;
export const recordApproval = ({ textId, key, ...body }: BodyOf<typeof routes.approve> & { textId: string; key: string }) =>
  call(routes.approve, { params: { id: textId }, body, key });
export const issueAgreement = (sent: { jobId: string; key: string }) =>
  call(routes.issue, { params: { id: sent.jobId }, body: {}, key: sent.key });
export const sendLinkAgain = (sent: { signerId: string; asked: boolean; key: string }) =>
  call(routes.sendAgain, { params: { id: sent.signerId }, body: { asked: sent.asked }, key: sent.key });
export const changeSigner = ({ signerId, ...body }: BodyOf<typeof routes.changeSigner> & { signerId: string }) =>
  call(routes.changeSigner, { params: { id: signerId }, body });
export const signOnSite = ({ signerId, ...body }: Signing & { signerId: string }) =>
  call(routes.signOnSite, { params: { id: signerId }, body, key: body.id });
export const overrideGate = ({ visitId, ...body }: BodyOf<typeof routes.overrideGate> & { visitId: string }) =>
  call(routes.overrideGate, { params: { id: visitId }, body, key: body.id });
