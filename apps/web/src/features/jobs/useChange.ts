// One change of a job: sends it, shows the job anew, and says so; the error stays for the screen.
import { useMutation, useQueryClient, type UseMutationResult } from '@tanstack/react-query';
import { saved } from '../../ui/saved.ts';

export function useChange<Input, Reply>(
  send: (input: Input) => Promise<Reply>,
  done: string,
  after?: (reply: Reply) => void,
  undo?: (input: Input, reply: Reply) => (() => Promise<unknown>) | null,
): UseMutationResult<Reply, Error, Input> {
  const queries = useQueryClient();
  const refresh = () => Promise.all([queries.invalidateQueries({ queryKey: ['jobs'] }), queries.invalidateQueries({ queryKey: ['week'] })]);
  return useMutation({
    mutationFn: send,
    onSuccess: async (reply, input) => {
      await refresh();
      const back = undo?.(input, reply);
      saved(done, back ? () => back().finally(refresh) : undefined);
      after?.(reply);
    },
    onError: () => void refresh(),
  });
}
