// Calls about contacts with people on a job, and the insurer's certificates.
import { queryOptions } from '@tanstack/react-query';
import { certificateRoutes, contactRoutes } from '@backsight/contract/mail/contacts';
import type { BodyOf } from '@backsight/contract/route';
import { addressOf, call } from './call.ts';

export const contactsQuery = (jobId: string) =>
  queryOptions({ queryKey: ['contacts', jobId], queryFn: ({ signal }) => call(contactRoutes.ofJob, { params: { id: jobId }, signal }) });
export const toCallQuery = (days: number) =>
  queryOptions({
    queryKey: ['contacts', 'to-call', days],
    queryFn: ({ signal }) => call(contactRoutes.toCall, { query: { days }, signal }),
  });
export const logContact = ({ jobId, key, ...body }: BodyOf<typeof contactRoutes.log> & { jobId: string; key: string }) =>
  call(contactRoutes.log, { params: { id: jobId }, body, key });

export const certificatesQuery = queryOptions({
  queryKey: ['certificates'],
  queryFn: ({ signal }) => call(certificateRoutes.list, { signal }),
});
/** The policies whose certificate may be put on file. */
export const insuredByQuery = queryOptions({
  queryKey: ['certificates', 'policies'],
  queryFn: ({ signal }) => call(certificateRoutes.policies, { signal }),
});
export const addCertificate = (body: BodyOf<typeof certificateRoutes.add>) => call(certificateRoutes.add, { body });
export const sendCertificate = ({ jobId, partyId }: { jobId: string; partyId: string }) =>
  call(certificateRoutes.send, { params: { id: jobId }, body: { partyId } });
/** Where the file of a certificate is read. */
export const insurerCertificateAddress = (id: string): string => addressOf(certificateRoutes.file.path, { id });
