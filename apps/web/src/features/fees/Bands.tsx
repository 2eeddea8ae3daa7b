// The bands of a base fee or of travel: each up to a limit, the last without one.
import type { ReactNode } from 'react';
import { Button, Group, Stack } from '@mantine/core';
import { AmountInput, NumberTyped } from './TypedInput.tsx';

export type Band = { limit: number | null; cents: number };
type Props = { unit: string; bands: readonly Band[]; onChange: (bands: Band[]) => void };

export function Bands({ unit, bands, onChange }: Props): ReactNode {
  const set = (at: number, band: Band) => onChange(bands.map((one, place) => (place === at ? band : one)));
  const last = bands.length - 1;
  const add = () => {
    const before = bands[last - 1]?.limit ?? 0;
    onChange([...bands.slice(0, last), { limit: before + 500, cents: bands[last]?.cents ?? 0 }, bands[last] ?? { limit: null, cents: 0 }]);
  };
  return (
    <Stack gap="xs">
      {bands.map((band, at) => (
        <Group key={`${bands.length}-${at}`} gap="xs" align="flex-end">
          <NumberTyped
            label={`Band ${at + 1}: up to (${unit})`}
            none="no limit"
            width={190}
            value={band.limit}
            onChange={(limit) => set(at, { ...band, limit })}
          />
          <AmountInput label={`Band ${at + 1}: dollars`} cents={band.cents} onChange={(cents) => set(at, { ...band, cents })} />
          {bands.length > 1 ? (
            <Button
              variant="default"
              size="compact-sm"
              mb={6}
              aria-label={`Remove band ${at + 1}`}
              onClick={() => onChange(bands.filter((_, place) => place !== at))}
            >
              Remove
            </Button>
          ) : null}
        </Group>
      ))}
      <div>
        <Button variant="default" size="compact-sm" onClick={add}>
          Add a band
        </Button>
      </div>
    </Stack>
  );
}
