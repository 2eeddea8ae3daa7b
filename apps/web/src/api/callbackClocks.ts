// Calls about the clocks of callbacks, pauses, dangers, the on-call list, legal papers and injuries.
import { queryOptions } from '@tanstack/react-query';
import { clockRoutes } from '@backsight/contract/callbacks/clocks';
import { onCallRoutes } from '@backsight/contract/callbacks/onCall';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

export const clocksQuery = (id: string) =>
  queryOptions({
    queryKey: ['callbacks', id, 'clocks'],
    queryFn: ({ signal }) => call(clockRoutes.ofCallback, { params: { id }, signal }),
  });
/** Looked at again every half minute: somebody else may have said "I have it". */
export const dangerQuery = (id: string) =>
  queryOptions({
    queryKey: ['callbacks', id, 'danger'],
    queryFn: ({ signal }) => call(onCallRoutes.danger, { params: { id }, signal }),
    refetchInterval: 30_000,
  });
export const termsQuery = queryOptions({ queryKey: ['callback-terms'], queryFn: ({ signal }) => call(clockRoutes.terms, { signal }) });
export const onCallQuery = queryOptions({ queryKey: ['on-call'], queryFn: ({ signal }) => call(onCallRoutes.list, { signal }) });

type Of<B> = B & { id: string };
const split = <B extends object>({ id, ...body }: Of<B>) => ({ params: { id }, body: body as unknown as B });

export type NewTerm = BodyOf<typeof clockRoutes.setTerm>;
export type NewDuty = BodyOf<typeof onCallRoutes.add>;
export const setTerm = (body: NewTerm) => call(clockRoutes.setTerm, { body });
export const pauseCallback = (sent: Of<{ words: string }>) => call(clockRoutes.pause, split(sent));
export const resumeCallback = (sent: Of<{ words?: string }>) => call(clockRoutes.resume, split(sent));
export const markSafety = (sent: Of<BodyOf<typeof clockRoutes.safety>>) => call(clockRoutes.safety, split(sent));
export const tickSameDay = (sent: Of<BodyOf<typeof clockRoutes.tick>>) => call(clockRoutes.tick, split(sent));
export const setPaper = (sent: Of<BodyOf<typeof clockRoutes.setPaper>>) => call(clockRoutes.setPaper, split(sent));
export const answerPaper = (sent: Of<BodyOf<typeof clockRoutes.answerPaper>>) => call(clockRoutes.answerPaper, split(sent));
export const noteInjury = (sent: Of<BodyOf<typeof clockRoutes.injury>>) => call(clockRoutes.injury, split(sent));
export const reportInjury = (sent: Of<BodyOf<typeof clockRoutes.reportInjury>>) => call(clockRoutes.reportInjury, split(sent));
export const answerDanger = (id: string) => call(onCallRoutes.answer, { params: { id }, body: {} });
export const addDuty = (body: NewDuty) => call(onCallRoutes.add, { body });
export const removeDuty = (id: string) => call(onCallRoutes.remove, { params: { id } });
