// What the office says about drives by hand: a closed bridge, the road around the shore.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { TravelPage, TravelRule } from '@backsight/contract/schedule/travel';
import { newId } from '../../api/ids.ts';
import { addTravelRule, endTravelRule, type NewTravelRule } from '../../api/travel.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { useSend } from '../../ui/useSend.ts';
import { When } from '../../ui/When.tsx';
import { AddRule } from './AddRule.tsx';
import { milesText } from './units.ts';

const areaText = ({ name, radiusKm }: TravelRule['a']): string => `${name} (${milesText(radiusKm)} around)`;

const drive = ({ a, b }: TravelRule): string => (b ? `${areaText(a)} and ${areaText(b)}, either way` : `From and to ${areaText(a)}`);

const says = ({ minutes, percent }: TravelRule): string =>
  minutes !== null ? `${minutes} min` : `${Math.abs(percent!)} % ${percent! > 0 ? 'longer' : 'shorter'}`;

/** What was said, to be said once more. */
const againOf = ({ a, b, minutes, percent, reason }: TravelRule): NewTravelRule =>
  b !== null && minutes !== null
    ? { id: newId(), kind: 'between', a, b, minutes, reason }
    : { id: newId(), kind: 'within', a, percent: percent!, reason };

export function Rules({ rules, towns }: { rules: TravelRule[]; towns: TravelPage['towns'] }): ReactNode {
  const [adding, setAdding] = useState(false);
  const end = useSend(({ id }: TravelRule) => endTravelRule(id), {
    refresh: ['travel'],
    said: 'It no longer counts.',
    undo: (rule) => () => addTravelRule({ ...againOf(rule), key: newId() }),
  });
  const columns: Column<TravelRule>[] = [
    { key: 'drive', head: 'Drive', cell: drive },
    { key: 'says', head: 'Takes', align: 'right', oneLine: true, cell: says },
    { key: 'reason', head: 'Why', cell: ({ reason }) => reason },
    {
      key: 'by',
      head: 'Said',
      cell: ({ by, recordedAt }) => (
        <>
          by {by}, <When at={recordedAt} />
        </>
      ),
    },
    {
      key: 'act',
      head: 'Change',
      cell: (rule) => (
        <Button size="compact-sm" variant="default" aria-label={`End it: ${drive(rule)}`} onClick={() => end.mutate(rule)}>
          End it
        </Button>
      ),
    },
  ];
  return (
    <Section
      title="Said by hand"
      actions={
        adding ? undefined : (
          <Button variant="default" onClick={() => setAdding(true)}>
            Say how long a drive takes
          </Button>
        )
      }
    >
      <ProblemNote of={end.error} />
      {adding ? <AddRule towns={towns} done={() => setAdding(false)} /> : null}
      {rules.length === 0 ? <Empty>Nothing is said by hand.</Empty> : null}
      {rules.length > 0 ? <DataTable caption="Said by hand" columns={columns} rows={rules} rowKey={({ id }) => id} /> : null}
    </Section>
  );
}
