// How one gets in, codes included: shown when asked for, and only to the people of the visit around its time; on its day without signal too.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { wayInQuery } from '../../api/desk.ts';
import { asProblem } from '../../api/problemError.ts';
import { Details } from '../../ui/Details.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { When } from '../../ui/When.tsx';

export function WayIn({ visitId }: { visitId: string }): ReactNode {
  const [asked, setAsked] = useState(false);
  const { data, error, isFetching } = useQuery(wayInQuery(visitId, asked));
  if (!asked || (isFetching && !data))
    return (
      <Button variant="default" loading={asked} onClick={() => setAsked(true)}>
        Show how to get in
      </Button>
    );
  if (!data || (asProblem(error)?.status ?? 0) > 0) return <ProblemNote of={error} />;
  const rows = [
    ['Opens', data.opener && (data.phone ? `${data.opener}, ${data.phone}` : data.opener)],
    ['There from', data.opensAt && <When at={data.opensAt} />],
    ['Key box', data.keyBox],
    ['Alarm', data.alarm],
    ['Pets', data.pets],
  ] as const;
  const said = rows.filter(([, value]) => value);
  return said.length === 0 ? <p>Nothing more is noted.</p> : <Details rows={said} />;
}
