// A piece failed on site: it is blocked at once, and who could bring another one is shown.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { KitItem } from '@backsight/contract/people/kit';
import { newId } from '../../api/ids.ts';
import { failKit, swapsQuery } from '../../api/personFile.ts';
import { dayQuery } from '../../api/sitework.ts';
import { Empty } from '../../ui/Empty.tsx';
import { Form } from '../../ui/Form.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';

const LABELS = { note: 'What is wrong with it', visitId: 'At which visit' };

type Place = { id: string; address: string };

/** Today's visits of the reader; the one under way, or else the next, is meant unless he says otherwise. */
export function FailKit({ item, done }: { item: KitItem; done: () => void }): ReactNode {
  const day = useQuery(dayQuery);
  const visits = (day.data?.visits ?? []).filter((visit) => visit.day === day.data?.today);
  const now = new Date().toISOString();
  const meant = visits.find(({ endsAt }) => now < new Date(endsAt).toISOString()) ?? visits.at(-1);
  if (day.isPending) return <Loading />;
  return <Report item={item} visits={visits} meant={meant?.id ?? ''} done={done} />;
}

function Report({ item, visits, meant, done }: { item: KitItem; visits: Place[]; meant: string; done: () => void }): ReactNode {
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const [blocked, setBlocked] = useState(item.endedOn !== null);
  const fail = useSend(failKit, { refresh: ['kit'], said: `${item.serial} is out of service.`, then: () => setBlocked(true) });
  const fields = useFields({ note: '', visitId: meant }, LABELS, fail.error, 'fail');
  const visitId = fields.values.visitId || null;
  const leave = (
    <Button variant="default" onClick={done}>
      {blocked ? 'Done' : 'Leave without saving'}
    </Button>
  );
  if (blocked) return <Swaps item={item} visitId={visitId} besides={leave} />;
  return (
    <Form
      error={fail.error}
      labels={LABELS}
      scope="fail"
      submit="It failed: block it now"
      busy={fail.isPending}
      onSubmit={() => fail.mutate({ note: fields.values.note, visitId, ...ids, itemId: item.id })}
      besides={leave}
    >
      <TextInput {...fields.text('note')} mb="sm" />
      <NativeSelect
        {...fields.text('visitId')}
        description="With a visit of today, those who could bring another one are shown"
        data={[{ value: '', label: 'no visit' }, ...visits.map(({ id, address }) => ({ value: id, label: address }))]}
      />
    </Form>
  );
}

function Swaps({ item, visitId, besides }: { item: KitItem; visitId: string | null; besides: ReactNode }): ReactNode {
  const swaps = useQuery(swapsQuery(item.id, visitId));
  return (
    <div role="status">
      <p>
        {item.name} {item.serial} is out of service. Nobody is sent with it any more.
        {visitId === null ? ' The office finds another one for you.' : ''}
      </p>
      <ProblemNote of={swaps.error} />
      {visitId !== null && swaps.isPending ? <Loading /> : null}
      {swaps.data?.length === 0 ? <Empty>Nobody can bring another one today. Call the office.</Empty> : null}
      {swaps.data && swaps.data.length > 0 ? (
        <>
          <p>Who could bring another one, soonest first:</p>
          <ol>
            {swaps.data.map(({ people, sentence }) => (
              <li key={people.map(({ id }) => id).join()}>
                {people.map(({ id, name, phone }, at) => (
                  <span key={id}>
                    {at > 0 ? ' and ' : ''}
                    {name} (<a href={`tel:${phone}`}>{phone}</a>)
                  </span>
                ))}{' '}
                {sentence}
              </li>
            ))}
          </ol>
        </>
      ) : null}
      {besides}
    </div>
  );
}
