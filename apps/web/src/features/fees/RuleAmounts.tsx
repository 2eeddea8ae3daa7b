// The amounts of one rule, by its kind.
import type { ReactNode } from 'react';
import { Checkbox, Group, NativeSelect, TextInput } from '@mantine/core';
import { FACTS } from '@backsight/domain/shared/facts';
import { OUTSIDE_DAYS, type FeeRule } from '@backsight/contract/fees/schedules';
import { clockOf, minuteOf } from '../../ui/clock.ts';
import { Bands } from './Bands.tsx';
import type { RuleOf } from './drafting.ts';
import { AmountInput, NumberTyped } from './TypedInput.tsx';

type Props = { rule: FeeRule; services: Readonly<Record<string, string>>; onChange: (rule: FeeRule) => void };

const NUMBERS = Object.entries(FACTS)
  .filter(([, { type }]) => type === 'number')
  .map(([value, { label }]) => ({ value, label }));
const notNull = (value: number | null): number => value ?? Number.NaN;

export function RuleAmounts({ rule, services, onChange }: Props): ReactNode {
  switch (rule.kind) {
    case 'base':
      return (
        <>
          <Bands
            unit="sq ft"
            bands={rule.bands.map(({ upToSqFt, cents }) => ({ limit: upToSqFt, cents }))}
            onChange={(bands) => onChange({ ...rule, bands: bands.map(({ limit, cents }) => ({ upToSqFt: limit, cents })) })}
          />
          <NumberTyped
            label="Living area taken while it is not known (sq ft)"
            width={340}
            value={rule.assume}
            onChange={(assume) => onChange({ ...rule, assume: notNull(assume) })}
          />
        </>
      );
    case 'travelBand':
      return (
        <Bands
          unit="minutes one way"
          bands={rule.bands.map(({ upToMinutes, cents }) => ({ limit: upToMinutes, cents }))}
          onChange={(bands) => onChange({ ...rule, bands: bands.map(({ limit, cents }) => ({ upToMinutes: limit, cents })) })}
        />
      );
    case 'perUnitOver':
      return <PerUnit rule={rule} onChange={onChange} />;
    case 'outsideHours':
      return <Outside rule={rule} onChange={onChange} />;
    case 'discount':
      return <Discount rule={rule} onChange={onChange} />;
    case 'addOn':
      return (
        <Group align="flex-end">
          <NativeSelect
            label="Priced service"
            value={rule.service}
            onChange={(event) => onChange({ ...rule, service: event.currentTarget.value })}
            data={Object.entries(services).map(([value, label]) => ({ value, label }))}
          />
          <AmountInput label="Dollars" cents={rule.cents} onChange={(cents) => onChange({ ...rule, cents })} />
        </Group>
      );
    case 'surcharge':
    case 'minimum':
      return (
        <AmountInput
          label={rule.kind === 'minimum' ? 'At least, dollars' : 'Dollars'}
          cents={rule.cents}
          onChange={(cents) => onChange({ ...rule, cents })}
        />
      );
  }
}

type Part<K extends FeeRule['kind']> = { rule: RuleOf<K>; onChange: (rule: FeeRule) => void };

const PerUnit = ({ rule, onChange }: Part<'perUnitOver'>): ReactNode => (
  <Group align="flex-end">
    <NativeSelect
      label="Counted"
      value={rule.fact}
      onChange={(event) => onChange({ ...rule, fact: event.currentTarget.value as typeof rule.fact })}
      data={NUMBERS}
    />
    <NumberTyped label="Over" width={110} value={rule.over} onChange={(over) => onChange({ ...rule, over: notNull(over) })} />
    <NumberTyped label="For each started" width={130} value={rule.step} onChange={(step) => onChange({ ...rule, step: notNull(step) })} />
    <AmountInput label="Dollars" cents={rule.cents} onChange={(cents) => onChange({ ...rule, cents })} />
    <NumberTyped
      label="Taken while not known"
      none="asked first"
      width={170}
      value={rule.assume ?? null}
      onChange={(assume) => {
        const { assume: _before, ...rest } = rule;
        onChange(assume === null ? rest : { ...rest, assume });
      }}
    />
  </Group>
);

const Outside = ({ rule, onChange }: Part<'outsideHours'>): ReactNode => (
  <Group align="flex-end">
    <TextInput
      label="Starts before"
      type="time"
      value={clockOf(rule.before)}
      onChange={(event) => onChange({ ...rule, before: minuteOf(event.currentTarget.value) ?? Number.NaN })}
    />
    <TextInput
      label="Starts after"
      type="time"
      value={clockOf(rule.after)}
      onChange={(event) => onChange({ ...rule, after: minuteOf(event.currentTarget.value) ?? Number.NaN })}
    />
    <AmountInput label="Dollars" cents={rule.cents} onChange={(cents) => onChange({ ...rule, cents })} />
    <Checkbox.Group
      label="And whole days"
      value={[...rule.days]}
      onChange={(days) => onChange({ ...rule, days: days as typeof rule.days })}
    >
      <Group gap="sm">
        {OUTSIDE_DAYS.map((day) => (
          <Checkbox key={day} value={day} label={day === 'holiday' ? 'federal holidays' : `${day}s`} />
        ))}
      </Group>
    </Checkbox.Group>
  </Group>
);

function Discount({ rule, onChange }: Part<'discount'>): ReactNode {
  const { key, label, applies, kind, reason } = rule;
  const head = { key, label, applies, kind, reason };
  const percent = 'percent' in rule;
  return (
    <Group align="flex-end">
      <NativeSelect
        label="Taken off"
        value={percent ? 'percent' : 'amount'}
        data={['percent', 'amount']}
        onChange={(event) => onChange(event.currentTarget.value === 'percent' ? { ...head, percent: 5 } : { ...head, cents: 2500 })}
      />
      {percent ? (
        <NumberTyped
          label="Percent of all charges"
          width={170}
          value={rule.percent}
          onChange={(next) => onChange({ ...head, percent: notNull(next) })}
        />
      ) : (
        <AmountInput label="Dollars" cents={rule.cents} onChange={(cents) => onChange({ ...head, cents })} />
      )}
      <TextInput
        label="Reason, as the client reads it"
        w={280}
        value={reason}
        maxLength={120}
        onChange={(event) => onChange({ ...rule, reason: event.currentTarget.value })}
      />
    </Group>
  );
}
