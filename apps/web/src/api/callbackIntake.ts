// Calls about how callbacks come in: what was brought before, photos, links, advice in danger, answers.
import { queryOptions } from '@tanstack/react-query';
import { intakeRoutes as routes } from '@backsight/contract/callbacks/intake';
import type { BodyOf } from '@backsight/contract/route';
import { base64Of, smallPhoto } from '../ui/photo.ts';
import { addressOf, call } from './call.ts';
import { newId } from './ids.ts';

export const earlierQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['callbacks', 'earlier', jobId],
    queryFn: ({ signal }) => call(routes.earlier, { params: { id: jobId }, signal }),
  });
export const stepsQuery = (jobId: string) =>
  queryOptions({ queryKey: ['callbacks', 'steps', jobId], queryFn: ({ signal }) => call(routes.steps, { params: { id: jobId }, signal }) });
export const cameInQuery = (id: string) =>
  queryOptions({ queryKey: ['callbacks', id, 'intake'], queryFn: ({ signal }) => call(routes.came, { params: { id }, signal }) });
export const adviceQuery = queryOptions({ queryKey: ['safety-advice'], queryFn: ({ signal }) => call(routes.advice, { signal }) });

type Of<B> = B & { id: string };
const split = <B extends object>({ id, ...body }: Of<B>) => ({ params: { id }, body: body as unknown as B });

export const linkCallback = (sent: Of<BodyOf<typeof routes.link>>) => call(routes.link, split(sent));
export const unlinkCallback = (sent: Of<{ words: string }>) => call(routes.unlink, split(sent));
export const changeJob = (sent: Of<BodyOf<typeof routes.changeJob>>) => call(routes.changeJob, split(sent));
export const answerQuestion = (sent: Of<{ words: string }>) => call(routes.answer, split(sent));
export const sendReportLink = ({ jobId, partyId }: { jobId: string; partyId: string }) =>
  call(routes.sendLink, { params: { id: jobId }, body: { partyId } });
export const approveAdvice = ({ danger, ...body }: BodyOf<typeof routes.approveAdvice> & { danger: string }) =>
  call(routes.approveAdvice, { params: { danger: danger as 'gas' }, body, key: body.id });

const isHeic = (file: File): boolean => /hei[cf]$/i.test(file.type) || /\.hei[cf]$/i.test(file.name);

/** Sends a photo as it is; with HEIC the JPEG comes along that this browser makes of it, where it can. */
export async function addCallbackPhoto({ id, file }: { id: string; file: File }): Promise<void> {
  const jpeg = isHeic(file) ? await smallPhoto(file).catch(() => null) : null;
  await call(routes.addPhoto, {
    params: { id },
    body: { id: newId(), name: file.name.slice(-200), original: await base64Of(file), jpeg: jpeg?.base64 ?? null },
    signal: AbortSignal.timeout(300_000),
  });
}

export const callbackPhotoAddress = (id: string, photoId: string, size: 'full' | 'small'): string =>
  addressOf(routes.photo.path, { id, photoId }, { size });
export const callbackOriginalAddress = (id: string, photoId: string): string => addressOf(routes.original.path, { id, photoId }, {});
