// Calls about the outbox and the wordings of mail.
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query';
import { mailRoutes as routes, type MailSettingsEdit, type MailShown } from '@backsight/contract/mail';
import { wordingRoutes, type WordingShown } from '@backsight/contract/mail/wordings';
import { call } from './call.ts';

export const outboxQuery = (state: MailShown['state'] | null) =>
  infiniteQueryOptions({
    queryKey: ['mail', 'list', state],
    queryFn: ({ signal, pageParam }) =>
      call(routes.list, { query: { ...(pageParam ? { before: pageParam } : {}), ...(state ? { state } : {}) }, signal }),
    initialPageParam: '',
    getNextPageParam: (page) => page.next,
  });
type One = { id: string; key: string };
export const tryAgain = ({ id, key }: One) => call(routes.again, { params: { id }, body: {}, key });
export const noteBounce = ({ id, key, reason }: One & { reason: string }) => call(routes.bounce, { params: { id }, body: { reason }, key });
export const sendAnew = ({ id, key, toAddress }: One & { toAddress: string | null }) =>
  call(routes.anew, { params: { id }, body: { toAddress }, key });

export const mailSettingsQuery = queryOptions({
  queryKey: ['mail', 'settings'],
  queryFn: ({ signal }) => call(routes.settings, { signal }),
});
export const changeMailSettings = ({ version, ...body }: MailSettingsEdit & { version: number }) => call(routes.change, { body, version });
export const pauseMail = (reason: string) => call(routes.pause, { body: { reason } });
export const resumeMail = () => call(routes.resume, { body: {} });
export const sendTestMail = () => call(routes.test, { body: {} });
export const clearAddress = (address: string) => call(routes.clearAddress, { body: { address } });

export const wordingsQuery = queryOptions({
  queryKey: ['mail', 'wordings'],
  queryFn: ({ signal }) => call(wordingRoutes.list, { signal }),
});
type Words = { kind: WordingShown['kind']; subject: string; body: string };
type Reviewed = { review: WordingShown['review'] };
export const changeWording = ({ kind, ...body }: Words & Reviewed) => call(wordingRoutes.change, { params: { kind }, body });
export const resetWording = ({ kind, review }: Pick<Words, 'kind'> & Reviewed) =>
  call(wordingRoutes.reset, { params: { kind }, body: { review } });
export const previewWording = ({ kind, ...body }: Words & { jobId: string }) => call(wordingRoutes.preview, { params: { kind }, body });
