// One office: its place, from which travel is counted, and its hours, in which deadlines run.
import { useState, type ReactNode } from 'react';
import { SimpleGrid, TextInput } from '@mantine/core';
import type { Firm, WeekHours } from '@backsight/contract/firm';
import { changeOffice } from '../../api/firm.ts';
import { asProblem } from '../../api/problemError.ts';
import { clockOf, spanOf, type TypedWeek } from '../../ui/clock.ts';
import { Form } from '../../ui/Form.tsx';
import { Section } from '../../ui/Section.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { WeekInput } from '../../ui/WeekInput.tsx';

const LABELS = { name: 'Town', address: 'Address', lat: 'Latitude', lon: 'Longitude' };
const DAYS = [1, 2, 3, 4, 5, 6, 7] as const;

const typedOf = (hours: WeekHours): TypedWeek =>
  DAYS.map((day) => ({ from: hours[day] ? clockOf(hours[day][0]) : '', until: hours[day] ? clockOf(hours[day][1]) : '' }));
const hoursOf = (week: TypedWeek): WeekHours => Object.fromEntries(DAYS.map((day) => [day, spanOf(week[day - 1]!)])) as WeekHours;

export function OfficeForm({ office }: { office: Firm['offices'][number] }): ReactNode {
  const [week, setWeek] = useState(() => typedOf(office.hours));
  const save = useSend(changeOffice, { refresh: ['firm'], said: 'The office was saved.' });
  const fields = useFields(
    { name: office.name, address: office.address, lat: String(office.lat), lon: String(office.lon) },
    LABELS,
    save.error,
  );
  const send = () =>
    save.mutate({
      id: office.id,
      name: fields.values.name,
      address: fields.values.address,
      lat: Number(fields.values.lat),
      lon: Number(fields.values.lon),
      hours: hoursOf(week),
    });
  const wrongHours = asProblem(save.error)?.fields.find(({ field }) => field.startsWith('hours'))?.message;
  return (
    <Section folds title={`Office in ${office.name}`}>
      <Form error={save.error} labels={LABELS} draft={fields.draft} submit="Save the office" busy={save.isPending} onSubmit={send}>
        <SimpleGrid cols={{ base: 1, xs: 2 }}>
          <TextInput {...fields.text('name')} required />
          <TextInput {...fields.text('address')} required />
          <TextInput {...fields.text('lat')} required inputMode="decimal" />
          <TextInput {...fields.text('lon')} required inputMode="decimal" />
        </SimpleGrid>
        <WeekInput legend="Office hours" about="Blank: closed" value={week} onChange={setWeek} error={wrongHours} />
      </Form>
    </Section>
  );
}
