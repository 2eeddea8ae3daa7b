// A price that was asked and not booked: kept as it was typed, and taken up again without typing it anew.
import { useEffect, useState, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import { inquiryQuery, saveInquiry } from '../../api/feeSetUp.ts';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { discountSent } from '../../ui/DiscountInputs.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { todayIn } from '../../ui/time.ts';
import { useSend } from '../../ui/useSend.ts';
import type { Draft } from './draft.ts';
import classes from './booking.module.css';

const route = getRouteApi('/shell/book');

/** Fills the draft once from the inquiry that the address names; answers what went wrong. */
export function useInquiry(draft: Draft, change: (part: Partial<Draft>) => void): unknown {
  const { inquiry: id } = route.useSearch();
  const { zone } = useMe();
  const found = useQuery({ ...inquiryQuery(id ?? ''), enabled: id !== undefined });
  const kept = found.data;
  useEffect(() => {
    if (!kept || kept.outcome !== null || draft.inquiry?.id === kept.id) return;
    const fresh = { jobId: newId(), key: newId(), propertyId: newId(), start: null, told: null };
    const today = todayIn(zone);
    const { fromDay = today } = kept.draft as Partial<Draft>;
    change({
      ...(kept.draft as Partial<Draft>),
      ...fresh,
      fromDay: fromDay < today ? today : fromDay,
      inquiry: { id: kept.id, version: kept.version },
    });
  }, [kept, draft.inquiry, change, zone]);
  return found.error;
}

type Props = { draft: Draft; change: (part: Partial<Draft>) => void; place: { lat: number; lon: number } | null; done: () => void };

export function KeepInquiry({ draft, change, place, done }: Props): ReactNode {
  const navigate = useNavigate();
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const keep = useSend(saveInquiry, {
    refresh: ['inquiries'],
    said: 'The price is kept.',
    then: () => {
      setIds({ id: newId(), key: newId() });
      done();
      void navigate({ to: '/inquiries' });
    },
  });
  const { facts, services, caller, phone, email, address, fromDay, followUpOn, note } = draft;
  if (draft.inquiry) return null;
  return (
    <section aria-label="Not booked now" className={classes.panel}>
      <details open={followUpOn !== '' || note !== '' || undefined}>
        <summary>Not booked now: keep the price and ask again</summary>
        <ProblemNote of={keep.error} />
        <TextInput
          label="Follow up on"
          type="date"
          value={followUpOn}
          onChange={(event) => change({ followUpOn: event.currentTarget.value })}
        />
        <TextInput label="Note" mt="xs" value={note} maxLength={500} onChange={(event) => change({ note: event.currentTarget.value })} />
        <Button
          mt="sm"
          variant="default"
          disabled={caller.trim() === ''}
          loading={keep.isPending}
          onClick={() =>
            keep.mutate({
              ...ids,
              caller,
              phone,
              email,
              address,
              facts,
              services,
              place,
              day: fromDay,
              discount: discountSent(draft.discount),
              draft,
              note,
              followUpOn: followUpOn || null,
            })
          }
        >
          Keep this price
        </Button>
        {caller.trim() === '' ? <p className={classes.soft}>The name of the caller is needed.</p> : null}
      </details>
    </section>
  );
}
