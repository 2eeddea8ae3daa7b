// What each disadvantage of a plan is worth, folded away until somebody wants to weigh otherwise.
import type { ReactNode } from 'react';
import { NumberInput, SimpleGrid } from '@mantine/core';
import type { PlanWeights } from '@backsight/contract/plans';
import { WEIGHTS } from './words.ts';

type Props = { standard: PlanWeights; chosen: Partial<PlanWeights>; change: (weights: Partial<PlanWeights>) => void };

export function Weights({ standard, chosen, change }: Props): ReactNode {
  const set = (key: keyof PlanWeights, value: number) => {
    const { [key]: _, ...others } = chosen;
    change(value === standard[key] ? others : { ...others, [key]: value });
  };
  const changed = Object.keys(chosen).length;
  return (
    <details>
      <summary>{changed === 0 ? 'What counts how much' : `What counts how much (${changed} changed)`}</summary>
      <p>Each is worth so many minutes of one person’s time. The plan is the one whose sum is least.</p>
      <SimpleGrid cols={{ base: 1, xs: 2, md: 3 }}>
        {WEIGHTS.map(([key, label, why]) => (
          <NumberInput
            key={key}
            label={label}
            description={why}
            min={0}
            max={5000}
            step={key === 'leftOut' ? 100 : 0.25}
            value={chosen[key] ?? standard[key]}
            onChange={(value) => typeof value === 'number' && set(key, Math.round(value * 20) / 20)}
          />
        ))}
      </SimpleGrid>
    </details>
  );
}
