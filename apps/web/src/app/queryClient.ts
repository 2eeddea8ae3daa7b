// Queries of the whole app: what is retried, and what happens when the session has ended.
import { MutationCache, QueryCache, QueryClient } from '@tanstack/react-query';
import { isForOthers, ProblemError } from '../api/problemError.ts';
import { askToSignIn } from '../api/signedOut.ts';
import { noteRequest, noteSuccess } from '../ui/draft.ts';

const endedSession = (error: unknown): boolean => error instanceof ProblemError && error.code === 'not-signed-in';
const worthRetrying = (error: unknown): boolean => !(error instanceof ProblemError) || error.status === 0 || error.status >= 502;

export const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      staleTime: 10_000,
      networkMode: 'always',
      retry: (count, error) => count < 2 && worthRetrying(error),
      // A screen that may not be read is for others as a whole: that is said once, in its place.
      throwOnError: (error, { state }) => state.data === undefined && isForOthers(error),
    },
    mutations: { retry: false, networkMode: 'always' },
  },
  queryCache: new QueryCache({
    onError: (error, query) => {
      if (endedSession(error) && !query.meta?.quietWhenSignedOut) askToSignIn();
    },
  }),
  mutationCache: new MutationCache({
    onMutate: (_, request) => noteRequest(request),
    onSuccess: (_, __, ___, request) => noteSuccess(request),
    onError: (error) => {
      if (endedSession(error)) askToSignIn();
    },
  }),
});
