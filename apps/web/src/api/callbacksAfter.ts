// Calls about letters, the assessment, and what follows a closing.
import { queryOptions } from '@tanstack/react-query';
import { afterRoutes as routes } from '@backsight/contract/callbacks/after';
import type { BodyOf, ParamsOf } from '@backsight/contract/route';
import { call } from './call.ts';
import { seenVersion } from './seen.ts';

export type LetterName = ParamsOf<typeof routes.draft>['letter'];
export type EditedLetter = BodyOf<typeof routes.write>;

export const afterQuery = (id: string) =>
  queryOptions({ queryKey: ['callbacks', id, 'after'], queryFn: ({ signal }) => call(routes.after, { params: { id }, signal }) });
export const lettersQuery = (id: string) =>
  queryOptions({ queryKey: ['callbacks', id, 'letters'], queryFn: ({ signal }) => call(routes.letters, { params: { id }, signal }) });
export const draftQuery = (id: string, letter: LetterName, way: 'mail' | 'paper' | undefined, names: boolean) =>
  queryOptions({
    queryKey: ['callbacks', id, 'draft', letter, way ?? '', names],
    queryFn: ({ signal }) =>
      call(routes.draft, { params: { id, letter }, query: { ...(way ? { way } : {}), names: names ? 'yes' : 'no' }, signal }),
    staleTime: Infinity,
    gcTime: 0,
  });
export const answersQuery = queryOptions({ queryKey: ['callbacks', 'answers'], queryFn: ({ signal }) => call(routes.answers, { signal }) });
export const afterRulesQuery = queryOptions({ queryKey: ['after-rules'], queryFn: ({ signal }) => call(routes.rules, { signal }) });

type Of<B> = B & { id: string };
const split = <B extends object>({ id, ...body }: Of<B>) => ({ params: { id }, body: body as unknown as B, version: seenVersion(id) });

type OfLetter = Of<EditedLetter> & { letter: LetterName };
export const lookAtLetter = ({ id, letter, ...body }: OfLetter) => call(routes.look, { params: { id, letter }, body });
export const sendLetter = ({ id, letter, ...body }: OfLetter) =>
  call(routes.write, { params: { id, letter }, body, version: seenVersion(id) });
export const assess = (sent: Of<BodyOf<typeof routes.assess>>) => call(routes.assess, split(sent));
export const answerCheck = (sent: Of<BodyOf<typeof routes.check>>) => call(routes.check, split(sent));
export const appealForThem = (sent: Of<BodyOf<typeof routes.appeal>>) => call(routes.appeal, split(sent));
export const decideAppeal = (sent: Of<BodyOf<typeof routes.decideAppeal>>) => call(routes.decideAppeal, split(sent));
export const setAfterRules = ({ version, ...body }: BodyOf<typeof routes.setRules> & { version: number }) =>
  call(routes.setRules, { body, version });
