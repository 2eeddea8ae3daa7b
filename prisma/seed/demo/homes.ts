// Invented houses around the lake, with what is known of them when somebody calls.
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { TOWNS } from '../starter/towns.ts';
import type { Chance } from './chance.ts';

export type Home = { address: string; town: string; lat: number; lon: number; facts: PropertyFacts };

const STREETS = [
  'Alder',
  'Bittern',
  'Cranberry',
  'Dovetail',
  'Elderberry',
  'Fen',
  'Granary',
  'Heron',
  'Ice House',
  'Juniper',
  'Kingfisher',
  'Larch',
  'Marsh',
  'Nettle',
  'Oxbow',
  'Pinery',
  'Quarry',
  'Rushes',
  'Sawmill',
  'Teal',
  'Upland',
  'Vesper',
  'Wren',
  'Yarrow',
];
const KINDS = ['Street', 'Road', 'Lane', 'Court', 'Avenue'];
const MATERIALS = ['poured', 'block', 'stone'] as const;

const round = (value: number, to: number): number => Math.round(value / to) * to;

function ageOf(chance: Chance): number {
  if (chance.odds(0.25)) return chance.between(1890, 1945);
  return chance.odds(0.6) ? chance.between(1946, 1985) : chance.between(1986, 2019);
}

function featuresOf(chance: Chance, year: number, basement: boolean): NonNullable<PropertyFacts['features']> {
  const has: NonNullable<PropertyFacts['features']>[number][] = ['attic', 'stairs'];
  has.push(year > 1955 && chance.odds(0.8) ? 'attached_garage' : 'detached_garage');
  if (chance.odds(0.55)) has.push('deck');
  if (chance.odds(0.4)) has.push('fireplace', 'chimney');
  if (basement && chance.odds(0.6)) has.push('sump_pump');
  return has;
}

/** A house of the county: most are single-family houses with a basement and a gas furnace. */
export function factsOf(chance: Chance): PropertyFacts {
  const yearBuilt = ageOf(chance);
  const livingArea = round(chance.between(900, 2900), 20);
  const basement = chance.odds(0.78);
  const town = chance.odds(0.7);
  const twoUnits = chance.odds(0.07);
  const central = yearBuilt > 1960 && chance.odds(0.7);
  return {
    kind: twoUnits ? 'two_to_four_units' : 'single_family',
    yearBuilt,
    livingArea,
    stories: livingArea > 1500 && chance.odds(0.6) ? 2 : 1,
    units: twoUnits ? 2 : 1,
    bedrooms: Math.max(2, Math.round(livingArea / 620)),
    bathrooms: livingArea > 1900 ? 2.5 : livingArea > 1250 ? 2 : 1,
    heatingSystems: 1,
    coolingSystems: central ? 1 : 0,
    panels: 1,
    waterHeaters: 1,
    outbuildings: chance.odds(0.15) ? 1 : 0,
    foundation: basement ? ['basement'] : chance.odds(0.5) ? ['crawl_space'] : ['slab'],
    foundationMaterial: yearBuilt < 1930 ? 'stone' : chance.pick(MATERIALS.slice(0, 2)),
    roofCovering: chance.odds(0.88) ? 'asphalt' : 'metal',
    heatingKind: chance.odds(0.82) ? ['forced_air'] : ['boiler'],
    heatingFuel: [town ? 'natural_gas' : chance.odds(0.8) ? 'propane' : 'oil'],
    coolingKind: central ? 'central' : 'none',
    waterSource: town ? 'public' : 'private_well',
    waste: town ? 'public_sewer' : 'septic',
    features: featuresOf(chance, yearBuilt, basement),
    occupied: chance.odds(0.8) ? 'occupied' : 'vacant',
    waterOn: true,
    electricityOn: true,
    gasOn: true,
    winterized: false,
  };
}

/** Callers do not know everything: some facts stay away until somebody looks. */
const OFTEN_OPEN = [
  'foundationMaterial',
  'outbuildings',
  'coolingSystems',
  'panels',
  'waterHeaters',
  'winterized',
  'roofCovering',
] as const;
const SELDOM_OPEN = ['livingArea', 'yearBuilt', 'gasOn', 'waterOn'] as const;

function asKnown(facts: PropertyFacts, chance: Chance): PropertyFacts {
  const known = { ...facts };
  if (chance.odds(0.35)) delete known[chance.pick(OFTEN_OPEN)];
  if (chance.odds(0.08)) delete known[chance.pick(SELDOM_OPEN)];
  return known;
}

/** After so many houses streets and numbers come again. */
const ROUND = 2_640;

/** House number `n` of the demo; no two have one address. */
export function homeOf(n: number, chance: Chance): Home {
  const town = TOWNS[chance.odds(0.45) ? 0 : chance.between(1, TOWNS.length - 1)]!;
  const number = 100 + ((n * 37) % 880) + 880 * Math.floor(n / ROUND);
  const address = `${number} ${STREETS[n % STREETS.length]} ${KINDS[Math.floor(n / STREETS.length) % KINDS.length]}`;
  const place = {
    lat: Number((town.lat + (chance.next() - 0.5) * 0.05).toFixed(4)),
    lon: Number((town.lon + (chance.next() - 0.5) * 0.07).toFixed(4)),
  };
  return { address, town: town.name, ...place, facts: asKnown(factsOf(chance), chance) };
}

/** The house of the thawed freezer: an upstairs bath whose ground-fault device also feeds the garage. */
export const FREEZER_HOME: Home = {
  address: '418 Kingfisher Lane',
  town: 'Birchmere',
  lat: 44.0382,
  lon: -88.5514,
  facts: {
    kind: 'single_family',
    yearBuilt: 1974,
    livingArea: 2120,
    stories: 2,
    units: 1,
    bedrooms: 4,
    bathrooms: 2.5,
    heatingSystems: 1,
    coolingSystems: 1,
    panels: 1,
    waterHeaters: 1,
    outbuildings: 0,
    foundation: ['basement'],
    foundationMaterial: 'block',
    roofCovering: 'asphalt',
    heatingKind: ['forced_air'],
    heatingFuel: ['natural_gas'],
    coolingKind: 'central',
    waterSource: 'public',
    waste: 'public_sewer',
    features: ['attic', 'attached_garage', 'deck', 'fireplace', 'chimney', 'sump_pump', 'stairs'],
    occupied: 'occupied',
    waterOn: true,
    electricityOn: true,
    gasOn: true,
    winterized: false,
  },
};

/** The same place as a unit in a condominium building, whose roof nobody climbs: it can be looked at after dark. */
export const flatOf = ({ facts, ...home }: Home): Home => ({
  ...home,
  facts: { ...facts, kind: 'condominium', stories: 1, units: 1, outbuildings: 0, foundation: ['slab'], features: ['stairs'] },
});
