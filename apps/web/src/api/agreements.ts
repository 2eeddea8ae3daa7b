// Calls about agreements and their signers.
import { queryOptions } from '@tanstack/react-query';
import { agreementsRoutes as routes } from '@backsight/contract/agreements';
import type { BodyOf } from '@backsight/contract/route';
import { call, patience } from './call.ts';
import { onPhone } from './phone/replies.ts';

/** An agreement that was read once can be signed without signal. */
export const agreementQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['agreements', 'job', jobId],
    queryFn: ({ signal }) => call(routes.ofJob, { params: { id: jobId }, signal }),
    ...onPhone,
  });
export const issuePreviewQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['agreements', 'preview', jobId],
    queryFn: ({ signal }) => call(routes.preview, { params: { id: jobId }, signal }),
    staleTime: 0,
    gcTime: 0,
  });
/** For the office alone, and never kept on a phone. */
export const keptLinksQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['agreements', 'links', jobId],
    queryFn: ({ signal }) => call(routes.keptLinks, { params: { id: jobId }, signal }),
  });
export const gateQuery = (visitId: string) =>
  queryOptions({ queryKey: ['visit', visitId, 'gate'], queryFn: ({ signal }) => call(routes.gate, { params: { id: visitId }, signal }) });

type Signing = BodyOf<typeof routes.signOnSite>;
export const issueAgreement = (sent: { jobId: string; key: string }) =>
  call(routes.issue, { params: { id: sent.jobId }, body: {}, key: sent.key });
export const sendLinkAgain = (sent: { signerId: string; asked: boolean; key: string }) =>
  call(routes.sendAgain, { params: { id: sent.signerId }, body: { asked: sent.asked }, key: sent.key });
export const changeSigner = ({ signerId, ...body }: BodyOf<typeof routes.changeSigner> & { signerId: string }) =>
  call(routes.changeSigner, { params: { id: signerId }, body });
export const signOnSite = ({ signerId, ...body }: Signing & { signerId: string }) =>
  call(routes.signOnSite, { params: { id: signerId }, body, key: body.id, signal: patience() });
export const revokeLink = (sent: { signerId: string; key: string }) =>
  call(routes.revokeLink, { params: { id: sent.signerId }, body: {}, key: sent.key });
export const fileAuthority = ({ signerId, ...body }: BodyOf<typeof routes.fileAuthority> & { signerId: string }) =>
  call(routes.fileAuthority, { params: { id: signerId }, body });
export const overrideGate = ({ visitId, ...body }: BodyOf<typeof routes.overrideGate> & { visitId: string }) =>
  call(routes.overrideGate, { params: { id: visitId }, body, key: body.id });
