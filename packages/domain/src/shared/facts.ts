// What is known about a property: the one catalogue that fees, durations, kit, qualifications and steps look at.

type NumberFact = { type: 'number'; label: string; unit: string; min: number; max: number };
type ChoiceFact = { type: 'choice'; label: string; options: Record<string, string> };
type SetFact = { type: 'set'; label: string; options: Record<string, string> };
type YesNoFact = { type: 'yesNo'; label: string };
export type FactDefinition = NumberFact | ChoiceFact | SetFact | YesNoFact;

const count = (label: string, max = 40): NumberFact => ({ type: 'number', label, unit: '', min: 0, max });

export const FACTS = {
  kind: {
    type: 'choice',
    label: 'Kind of building',
    options: {
      single_family: 'single-family house',
      two_to_four_units: '2 to 4 units',
      condominium: 'condominium unit',
      manufactured: 'manufactured home',
      new_construction: 'new construction',
    },
  },
  yearBuilt: { type: 'number', label: 'Year built', unit: '', min: 1700, max: 2100 },
  livingArea: { type: 'number', label: 'Living area', unit: 'sq ft', min: 100, max: 30000 },
  stories: { type: 'number', label: 'Stories', unit: '', min: 1, max: 5 },
  units: count('Units', 4),
  bedrooms: count('Bedrooms'),
  bathrooms: count('Bathrooms'),
  heatingSystems: count('Heating systems', 10),
  coolingSystems: count('Cooling systems', 10),
  panels: count('Electrical panels', 10),
  waterHeaters: count('Water heaters', 10),
  outbuildings: count('Outbuildings', 20),
  foundation: {
    type: 'set',
    label: 'Foundation',
    options: { basement: 'basement', crawl_space: 'crawl space', slab: 'slab on grade', piers: 'piers' },
  },
  foundationMaterial: {
    type: 'choice',
    label: 'Foundation walls',
    options: { poured: 'poured concrete', block: 'block', stone: 'stone', brick: 'brick', wood: 'treated wood', other: 'other' },
  },
  roofCovering: {
    type: 'choice',
    label: 'Roof covering',
    options: {
      asphalt: 'asphalt shingle',
      wood: 'wood shake',
      metal: 'metal',
      slate: 'slate',
      tile: 'tile',
      membrane: 'membrane',
      other: 'other',
    },
  },
  heatingKind: {
    type: 'set',
    label: 'Heating',
    options: { forced_air: 'forced air', boiler: 'boiler', heat_pump: 'heat pump', electric: 'electric baseboard', stove: 'stove' },
  },
  heatingFuel: {
    type: 'set',
    label: 'Heating fuel',
    options: { natural_gas: 'natural gas', propane: 'propane', oil: 'oil', electricity: 'electricity', wood: 'wood' },
  },
  coolingKind: {
    type: 'choice',
    label: 'Cooling',
    options: { none: 'none', central: 'central air', heat_pump: 'heat pump', room: 'room units' },
  },
  waterSource: { type: 'choice', label: 'Water', options: { public: 'public water', private_well: 'private well' } },
  waste: { type: 'choice', label: 'Waste water', options: { public_sewer: 'public sewer', septic: 'private septic' } },
  features: {
    type: 'set',
    label: 'Features',
    options: {
      attic: 'attic',
      attached_garage: 'attached garage',
      detached_garage: 'detached garage',
      deck: 'deck or porch',
      fireplace: 'fireplace or stove',
      chimney: 'chimney',
      sump_pump: 'sump pump',
      pool: 'pool',
      spa: 'spa',
      lawn_sprinklers: 'lawn sprinklers',
      stairs: 'stairs',
    },
  },
  occupied: { type: 'choice', label: 'Occupancy', options: { occupied: 'occupied', vacant: 'vacant' } },
  waterOn: { type: 'yesNo', label: 'Water on' },
  gasOn: { type: 'yesNo', label: 'Gas on' },
  electricityOn: { type: 'yesNo', label: 'Electricity on' },
  winterized: { type: 'yesNo', label: 'Winterized' },
} as const satisfies Record<string, FactDefinition>;

export type FactKey = keyof typeof FACTS;

type ValueOf<D> = D extends { type: 'number' }
  ? number
  : D extends { type: 'choice'; options: infer O }
    ? keyof O
    : D extends { type: 'set'; options: infer O }
      ? readonly (keyof O)[]
      : boolean;

/** Known facts of a property; an absent key means "not known yet". */
export type PropertyFacts = { [K in FactKey]?: ValueOf<(typeof FACTS)[K]> };

/** Things of a kind that a step may be done for, one entry each. */
export const ITEM_KINDS = {
  unit: 'unit',
  bathroom: 'bathroom',
  kitchen: 'kitchen',
  heating_system: 'heating system',
  cooling_system: 'cooling system',
  panel: 'electrical panel',
  water_heater: 'water heater',
  deck: 'deck or porch',
  fireplace: 'fireplace or stove',
  garage: 'garage',
  outbuilding: 'outbuilding',
  ground_fault_device: 'ground-fault device',
} as const;
export type ItemKind = keyof typeof ITEM_KINDS;
