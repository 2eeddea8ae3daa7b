// Adds a piece of kit.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, SimpleGrid, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { KitKind } from '@backsight/contract/people/kit';
import { firmQuery } from '../../api/firm.ts';
import { newId } from '../../api/ids.ts';
import { addKit } from '../../api/personFile.ts';
import { Form } from '../../ui/Form.tsx';
import { partId } from '../../ui/partId.ts';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { NO_VEHICLE, VEHICLE_LABELS, VehicleInputs, vehicleOf } from './VehicleInputs.tsx';

const LABELS = { kind: 'Kind', serial: 'Serial number', calibratedUntil: 'Calibrated until', note: 'Note', ...VEHICLE_LABELS };

type Props = {
  kinds: KitKind[];
  /** Begins with the kind that is wanted, as an address writes it; '' = any. */ wanted: string;
  done: () => void;
};

export function AddKit({ kinds, wanted, done }: Props): ReactNode {
  const firm = useQuery(firmQuery);
  const [ids] = useState(() => ({ id: newId(), key: newId() }));
  const add = useSend(addKit, { refresh: ['kit'], said: 'The piece was added.', then: done });
  const pooled = kinds.filter(({ carriedByAll, ofKind }) => !carriedByAll && ofKind === null);
  const first = (wanted ? pooled.find(({ name }) => wanted.startsWith(partId(name))) : undefined) ?? pooled[0];
  const fields = useFields({ kind: first?.key ?? '', serial: '', calibratedUntil: '', note: '', ...NO_VEHICLE }, LABELS, add.error);
  const officeId = firm.data?.offices[0]?.id;
  const { seats, ladderFeet, size, ...typed } = fields.values;
  const kind = pooled.find(({ key }) => key === fields.values.kind);
  const calibrated = kind?.calibrated ?? false;
  const send = () =>
    officeId &&
    add.mutate({
      ...typed,
      calibratedUntil: (calibrated && typed.calibratedUntil) || null,
      ...vehicleOf({ seats, ladderFeet, size }),
      officeId,
      ...ids,
    });
  return (
    <Form
      error={add.error ?? firm.error}
      labels={LABELS}
      draft={fields.draft}
      submit="Add this piece"
      busy={add.isPending || firm.isPending}
      onSubmit={send}
      besides={
        <Button variant="default" onClick={done}>
          Leave without saving
        </Button>
      }
    >
      <SimpleGrid cols={{ base: 1, xs: 2 }}>
        <NativeSelect {...fields.text('kind')} data={pooled.map(({ key, name }) => ({ value: key, label: name }))} />
        <TextInput {...fields.text('serial')} required />
        {calibrated ? (
          <TextInput {...fields.text('calibratedUntil')} type="date" required description="Visits after this day do not get it" />
        ) : null}
        <TextInput {...fields.text('note')} />
        {kind ? <VehicleInputs fields={fields} kind={kind} /> : null}
      </SimpleGrid>
    </Form>
  );
}
