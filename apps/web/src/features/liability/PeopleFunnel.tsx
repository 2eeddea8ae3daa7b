// One funnel of pairs or persons: drawn against limits, told by name, and silent about whoever has too few.
import type { ReactNode } from 'react';
import type { FunnelBand, FunnelUnit, PlacedUnit } from '@backsight/contract/liability/people';
import { FunnelChart, type FunnelPoint } from '../../ui/charts/FunnelChart.tsx';
import type { Column } from '../../ui/DataTable.tsx';
import { funnelFinding } from './chartTitles.ts';

type Shown = FunnelPoint & { unit: PlacedUnit };
const OUTSIDE = { within: null, beyond_95: 'inner', beyond_998: 'outer' } as const;
const one = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: 1 });

const ALSO: Column<Shown>[] = [
  { key: 'jobs', head: 'Jobs', align: 'right', cell: ({ unit }) => unit.jobs.toLocaleString('en-US') },
  { key: 'observed', head: 'Callbacks', align: 'right', cell: ({ unit }) => unit.observed },
  {
    key: 'limits',
    head: '95 % limits',
    cell: ({ unit }) => `${Math.max(0, unit.limits95.lower).toFixed(2)} to ${unit.limits95.upper.toFixed(2)}`,
  },
  { key: 'words', head: 'In words', cell: ({ unit }) => unit.sentence },
];

type Props = {
  /** What is drawn, with its full stop. */
  about: string;
  /** 'Pair', 'pairs'. */
  unitName: string;
  unitNames: string;
  units: readonly FunnelUnit[];
  bands: readonly FunnelBand[];
  sentence: string;
  named?: boolean;
};

const isPlaced = (unit: FunnelUnit): unit is PlacedUnit => unit.state === 'shown';

/** Needs at least one unit that can be shown. */
export function PeopleFunnel({ about, unitName, unitNames, units, bands, sentence, named = false }: Props): ReactNode {
  const placed = units.filter(isPlaced);
  const points = placed.map((unit): Shown => {
    const { name, expected, ratio, position } = unit;
    return { unit, key: unit.unit, label: name, size: expected, value: ratio, outside: OUTSIDE[position], named };
  });
  const outside = placed.filter(({ position }) => position !== 'within');
  const band = (name: string, key: 'limits95' | 'limits998') => ({
    name,
    at: bands.map((at) => ({ size: at.size, lower: at[key].lower > 0 ? at[key].lower : null, upper: at[key].upper })),
  });
  return (
    <FunnelChart<Shown>
      title={funnelFinding(placed, unitName.toLowerCase(), unitNames)}
      summary={[about, ...outside.map((unit) => unit.sentence), sentence].join(' ')}
      points={points}
      bands={[band('95 % limits', 'limits95'), band('99.8 % limits', 'limits998')]}
      target={1}
      pointName={unitName}
      xName="Callbacks to be expected from the houses"
      yName="Callbacks over those expected"
      format={(value) => (Number.isInteger(value) ? one(value) : value.toFixed(2))}
      also={ALSO}
    />
  );
}
