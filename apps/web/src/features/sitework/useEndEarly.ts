// Says that a visit ended early: to the service at once, or kept on this phone behind what waits already, and sent in its order.
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import type { BodyOf } from '@backsight/contract/route';
import type { endingRoutes } from '@backsight/contract/sitework/endings';
import { endEarly } from '../../api/desk.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { isWaiting, keep, useOutbox } from '../../api/phone/outbox.ts';
import { asProblem } from '../../api/problemError.ts';
import { aheadQuery } from '../../api/sitework.ts';
import { saved } from '../../ui/saved.ts';

type Ending = BodyOf<typeof endingRoutes.end>;

/** `kept`: it waits on this phone. `openedHere`: the visit was started on this phone, and the service may not know it yet. */
export function useEndEarly(visitId: string) {
  const me = useMe();
  const queries = useQueryClient();
  const navigate = useNavigate();
  const { data: ahead } = useQuery({ ...aheadQuery, enabled: false });
  const recordId = ahead?.visits.find(({ start }) => start.visit.id === visitId)?.recordId ?? visitId;
  const rows = useOutbox().filter((row) => row.personId === me.id && row.recordId === recordId);
  const onSite = me.roles.some((role) => role === 'inspector' || role === 'lead_inspector');
  const says = `Early end of the visit at ${ahead?.visits.find(({ start }) => start.visit.id === visitId)?.start.visit.address ?? 'the house'}`;

  const keepHere = async (id: string, body: Ending): Promise<'kept'> => {
    await keep(me.id, [{ recordId, id, says, what: { kind: 'act', path: `/api/visits/${visitId}/ending`, body, does: 'end_early' } }]);
    return 'kept';
  };
  const end = useMutation({
    mutationFn: async ({ body }: { body: Ending; recordOpen: boolean }): Promise<'kept' | 'sent'> => {
      const key = newId();
      if (rows.some(isWaiting)) return keepHere(key, body);
      try {
        await endEarly({ visitId, key, ...body });
        return 'sent';
      } catch (error) {
        if (onSite && asProblem(error)?.code === 'not-reached') return keepHere(key, body);
        throw error;
      }
    },
    onSuccess: async (how, { recordOpen }) => {
      saved(how === 'kept' ? 'Kept on this phone. It is sent by itself.' : 'The ending is on record.');
      await Promise.all(['my-day', 'jobs', 'record', 'visit'].map((key) => queries.invalidateQueries({ queryKey: [key] })));
      if (how === 'kept' || recordOpen) await navigate({ to: '/my-day' });
    },
  });
  const { isPending: busy, error } = end;
  const put = (body: Ending, recordOpen: boolean): void => end.mutate({ body, recordOpen });
  return {
    put,
    busy,
    error,
    kept: rows.some((row) => isWaiting(row) && row.what.kind === 'act' && row.what.does === 'end_early'),
    openedHere: rows.some(({ what }) => what.kind === 'act' && what.opens),
  };
}
