// Notes a calibration or a defect; takes a piece out of service, or back.
import type { ReactNode } from 'react';
import { Button, SimpleGrid, TextInput } from '@mantine/core';
import type { KitItem, Size } from '@backsight/contract/people/kit';
import { useMe } from '../../api/people.ts';
import { changeKit } from '../../api/personFile.ts';
import { Form } from '../../ui/Form.tsx';
import { todayIn } from '../../ui/time.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { VEHICLE_LABELS, VehicleInputs, vehicleOf } from './VehicleInputs.tsx';

const LABELS = { calibratedUntil: 'Calibrated until', note: 'Note', ...VEHICLE_LABELS };

export function ChangeKit({ item, done }: { item: KitItem; done: () => void }): ReactNode {
  const { zone } = useMe();
  const { calibratedUntil, note, seats, ladderFeet, size, endedOn } = item;
  const save = useSend(changeKit, {
    refresh: ['kit'],
    said: 'The piece was changed.',
    then: done,
    undo: () => () => changeKit({ id: item.id, calibratedUntil, note, seats, ladderFeet, size: size as Size | null, endedOn }),
  });
  const fields = useFields(
    {
      calibratedUntil: item.calibratedUntil ?? '',
      note: item.note,
      seats: item.seats ?? ('' as number | ''),
      ladderFeet: item.ladderFeet ?? ('' as number | ''),
      size: (item.size ?? '') as Size | '',
    },
    LABELS,
    save.error,
  );
  const edit = { calibratedUntil: fields.values.calibratedUntil || null, note: fields.values.note, ...vehicleOf(fields.values) };
  const outOrIn =
    item.endedOn === null
      ? { label: 'Take it out of service today', endedOn: todayIn(zone) }
      : { label: 'Put it back in service', endedOn: null };
  return (
    <Form
      error={save.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Save"
      busy={save.isPending}
      onSubmit={() => save.mutate({ id: item.id, ...edit })}
      besides={
        <>
          <Button variant="default" onClick={() => save.mutate({ id: item.id, ...edit, endedOn: outOrIn.endedOn })}>
            {outOrIn.label}
          </Button>
          <Button variant="default" onClick={done}>
            Leave without saving
          </Button>
        </>
      }
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <TextInput {...fields.text('calibratedUntil')} type="date" />
        <TextInput {...fields.text('note')} />
        <VehicleInputs fields={fields} kind={{ key: item.kind, worn: item.size !== null }} />
      </SimpleGrid>
    </Form>
  );
}
