// The things of a kind that steps are done for, suggested from what is known about the house before the pair has seen it.
import type { FactKey, ItemKind, PropertyFacts } from '../shared/facts.ts';
import { ITEM_KINDS } from '../shared/facts.ts';

export type SuggestedItem = { kind: ItemKind; label: string };
/** An item of one site record; its label is what the pair calls it. */
export type RecordItem = SuggestedItem & { id: string };

const COUNTED: readonly (readonly [ItemKind, FactKey])[] = [
  ['unit', 'units'],
  ['bathroom', 'bathrooms'],
  ['heating_system', 'heatingSystems'],
  ['cooling_system', 'coolingSystems'],
  ['panel', 'panels'],
  ['water_heater', 'waterHeaters'],
  ['outbuilding', 'outbuildings'],
];

const numbered = (kind: ItemKind, count: number): SuggestedItem[] =>
  Array.from({ length: count }, (_, at) => ({ kind, label: count === 1 ? ITEM_KINDS[kind] : `${ITEM_KINDS[kind]} ${at + 1}` }));

/** A half bathroom is a room of its own; a count that is not known yet stands for one, except for what most houses lack. */
const counted = (kind: ItemKind, fact: FactKey, facts: PropertyFacts): SuggestedItem[] => {
  const known = facts[fact];
  if (fact === 'coolingSystems' && facts.coolingKind === 'none') return [];
  if (known === undefined) return fact === 'outbuildings' ? [] : numbered(kind, 1);
  return numbered(kind, Math.ceil(Number(known)));
};

/** Without knowledge of the features nothing is named: the pair adds what it finds. */
const byFeature = (facts: PropertyFacts): SuggestedItem[] => {
  const features: readonly string[] = facts.features ?? [];
  const garages = (['attached_garage', 'detached_garage'] as const).filter((key) => features.includes(key));
  return [
    ...garages.map((key): SuggestedItem => ({ kind: 'garage', label: key.replace('_', ' ') })),
    ...(features.includes('deck') ? numbered('deck', 1) : []),
    ...(features.includes('fireplace') ? numbered('fireplace', 1) : []),
  ];
};

/** Where a ground-fault device is looked for first; one that is not there is answered "none at this property". */
const WITH_DEVICE: readonly ItemKind[] = ['bathroom', 'kitchen', 'garage'];

/** Items to begin a site record with, in a fixed order; the pair renames them and adds more on site. */
export function suggestItems(facts: PropertyFacts): SuggestedItem[] {
  const items = [
    ...COUNTED.flatMap(([kind, fact]) => counted(kind, fact, facts)),
    ...numbered('kitchen', Math.max(1, Number(facts.units ?? 1))),
    ...byFeature(facts),
  ];
  const rooms = items.filter(({ kind }) => WITH_DEVICE.includes(kind));
  return [...items, ...rooms.map(({ label }): SuggestedItem => ({ kind: 'ground_fault_device', label }))];
}
