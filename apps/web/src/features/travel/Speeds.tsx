// Speeds of the estimate by distance: the standard ones beside what the recorded drives say, and which of them is used.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox, Group, NativeSelect } from '@mantine/core';
import type { TravelFit, TravelPage } from '@backsight/contract/schedule/travel';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { chooseFit, refitTravel } from '../../api/travel.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { instantText } from '../../ui/time.ts';
import { useSend } from '../../ui/useSend.ts';
import { milesText, speedText } from './units.ts';

type Row = { upToKm: number | null; fromKm: number; standardKmh: number; band: TravelFit['bands'][number] | null };

export function Speeds({ travel }: { travel: TravelPage }): ReactNode {
  const { zone } = useMe();
  const newest = travel.fits[0] ?? null;
  const [shownId, setShown] = useState(travel.inUse?.id ?? newest?.id ?? '');
  const fit = travel.fits.find(({ id }) => id === shownId) ?? travel.inUse;
  return (
    <Section title="Estimate by distance" actions={<Refit onDone={setShown} />}>
      <p>
        In use: {travel.inUse ? <FitName fit={travel.inUse} /> : 'the standard speeds'}. A speed is fitted when at least{' '}
        {travel.enough.inBand} recorded drives fall into its distance, two towns get a factor of their own from {travel.enough.betweenTowns}{' '}
        drives on.
      </p>
      {travel.fits.length > 1 ? (
        <NativeSelect
          label="Fit shown"
          value={shownId}
          onChange={(event) => setShown(event.currentTarget.value)}
          data={travel.fits.map((one) => ({ value: one.id, label: fitLabel(one, zone) }))}
          maw="24rem"
          mb="sm"
        />
      ) : null}
      <DataTable caption="Speeds by distance" columns={COLUMNS} rows={rowsOf(travel, fit)} rowKey={({ fromKm }) => String(fromKm)} />
      {fit ? <Summary fit={fit} /> : <p>No drive has been looked at yet. Drives are recorded on the page My day.</p>}
      <Choose travel={travel} fit={fit} />
    </Section>
  );
}

function rowsOf({ standard }: TravelPage, fit: TravelFit | null): Row[] {
  return standard.map(({ upToKm, kmh }, at) => ({
    upToKm,
    fromKm: at === 0 ? 0 : (standard[at - 1]!.upToKm ?? 0),
    standardKmh: kmh,
    band: fit?.bands[at] ?? null,
  }));
}

const COLUMNS: Column<Row>[] = [
  {
    key: 'band',
    head: 'Straight line',
    cell: ({ fromKm, upToKm }) =>
      upToKm === null ? `over ${milesText(fromKm)}` : `${fromKm === 0 ? 'up' : milesText(fromKm)} to ${milesText(upToKm)}`,
  },
  { key: 'standard', head: 'Standard speed', align: 'right', cell: ({ standardKmh }) => speedText(standardKmh) },
  { key: 'drives', head: 'Recorded drives', align: 'right', cell: ({ band }) => band?.drives ?? 0 },
  {
    key: 'ratio',
    head: 'Driven against estimate',
    align: 'right',
    cell: ({ band }) => (band?.ratio === null || band?.ratio === undefined ? 'not known' : `${Math.round(band.ratio * 100)} %`),
  },
  {
    key: 'fitted',
    head: 'Fitted speed',
    align: 'right',
    cell: ({ band }) => (band?.fitted ? speedText(band.kmh) : 'stays standard'),
  },
];

const fitLabel = ({ recordedAt, used }: TravelFit, zone: string): string =>
  `${instantText(recordedAt, zone)}, ${used} ${used === 1 ? 'drive' : 'drives'}`;

function FitName({ fit }: { fit: TravelFit }): ReactNode {
  const { zone } = useMe();
  return (
    <>
      the fit of {instantText(fit.recordedAt, zone)} to {fit.used} drives
    </>
  );
}

function Summary({ fit }: { fit: TravelFit }): ReactNode {
  return (
    <>
      <p>
        {fit.used} drives counted{fit.leftOut > 0 ? `, ${fit.leftOut} left out because they cannot be drives` : ''}.
        {fit.missBefore !== null && fit.missAfter !== null
          ? ` Half of them lay within ${fit.missBefore} min of the standard estimate, and within ${fit.missAfter} min of this fit.`
          : ''}
      </p>
      {fit.factors.length > 0 ? (
        <ul>
          {fit.factors.map(({ a, b, factor, drives }) => (
            <li key={a + b}>
              {a} and {b}: {Math.round(factor * 100)} % of the estimate ({drives} drives)
            </li>
          ))}
        </ul>
      ) : null}
    </>
  );
}

function Refit({ onDone }: { onDone: (id: string) => void }): ReactNode {
  const [ids, setIds] = useState(() => ({ id: newId(), key: newId() }));
  const fit = useSend(refitTravel, {
    refresh: ['travel'],
    said: 'The recorded drives were looked at.',
    then: ({ id }) => {
      setIds({ id: newId(), key: newId() });
      onDone(id);
    },
  });
  return (
    <>
      <ProblemNote of={fit.error} />
      <Button variant="default" loading={fit.isPending} onClick={() => fit.mutate(ids)}>
        Look at the drives now
      </Button>
    </>
  );
}

function Choose({ travel, fit }: { travel: TravelPage; fit: TravelFit | null }): ReactNode {
  const me = useMe();
  const choose = useSend(chooseFit, { refresh: ['travel'], said: 'The speeds were chosen.' });
  if (!me.roles.some((role) => role === 'owner' || role === 'office_manager')) return null;
  const { version, follow, inUse } = travel;
  const fitId = inUse?.id ?? null;
  const pick = (next: { fitId: string | null; follow: boolean }) => choose.mutate({ version, ...next });
  return (
    <>
      <ProblemNote of={choose.error} />
      <Group mt="sm">
        {fit && fit.id !== fitId ? (
          <Button loading={choose.isPending} onClick={() => pick({ fitId: fit.id, follow })}>
            Use the fit shown
          </Button>
        ) : null}
        {fitId !== null ? (
          <Button variant="default" loading={choose.isPending} onClick={() => pick({ fitId: null, follow })}>
            Use the standard speeds
          </Button>
        ) : null}
        <Checkbox
          label="Use each month’s new fit without asking"
          checked={follow}
          onChange={(event) => pick({ fitId, follow: event.currentTarget.checked })}
        />
      </Group>
    </>
  );
}
