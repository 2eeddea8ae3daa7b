// Who closes a visit waits for the other phone: what comes from it is shown within seconds, and while nothing comes next to nothing is sent.
import { useEffect, useRef } from 'react';
import { useQuery, useQueryClient } from '@tanstack/react-query';
import type { MemberRecord } from '@backsight/contract/sitework';
import { standQuery } from '../../api/sitework.ts';

/** Reads the record again when something was added to it, as long as it is open and somebody looks. */
export function useWaitForPartner({ id, state }: Pick<MemberRecord, 'id' | 'state'>): void {
  const queries = useQueryClient();
  const { mark } = useQuery({ ...standQuery(id), enabled: state === 'open' }).data ?? {};
  const seen = useRef<string | undefined>(undefined);
  useEffect(() => {
    if (mark === undefined || mark === seen.current) return;
    seen.current = mark;
    void queries.invalidateQueries({ queryKey: ['record', id] });
  }, [mark, id, queries]);
}
