// Sends a change, reads again what it touched, and says that it was done.
import { useMutation, useQueryClient, type QueryKey } from '@tanstack/react-query';
import { asProblem } from '../api/problemError.ts';
import { saved } from './saved.ts';

type After<V, R> = {
  refresh: QueryKey;
  said: string;
  then?: (reply: R, sent: V) => void;
  /** The act's own inverse; leave it out, or answer null, where what follows from the act cannot be taken back. */
  undo?: (sent: V, reply: R) => (() => Promise<unknown>) | null;
};

/** A mutation whose success reads every query under `refresh` again, shows `said` with the way back, and then runs `then`. What was changed meanwhile is read again too. */
export function useSend<V, R>(send: (sent: V) => Promise<R>, { refresh, said, then, undo }: After<V, R>) {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: send,
    onError: async (error) => {
      if (asProblem(error)?.problem.code === 'callback-changed') await queries.invalidateQueries({ queryKey: refresh });
    },
    onSuccess: async (reply: R, sent: V) => {
      const again = () => queries.invalidateQueries({ queryKey: refresh });
      await again();
      const back = undo?.(sent, reply);
      saved(said, back ? () => back().finally(again) : undefined);
      then?.(reply, sent);
    },
  });
}
