// The firm's procedure book as data: it passes the checks of a revision, fits each house and the day of a pair.
import { describe, expect, it } from 'vitest';
import { checkRevision } from '@backsight/domain/procedures/book';
import { siteBudget, timesDone } from '@backsight/domain/procedures/budget';
import type { ItemCounts } from '@backsight/domain/procedures/budget';
import { coverageOf, isDuty, uncoveredRows } from '@backsight/domain/procedures/coverage';
import type { Procedure, Step } from '@backsight/domain/procedures/step';
import { MET_ELSEWHERE, STANDARDS } from '@backsight/domain/procedures/data/standards';
import { burdenOf, visitBurden } from '@backsight/domain/sitework/burden';
import { hazardPlaceOf } from '@backsight/domain/sitework/hazards';
import { makePackage } from '@backsight/domain/sitework/package';
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { checkRule } from '@backsight/domain/shared/rule-check';
import { ATTIC_STEPS_REVISED } from '../../../prisma/seed/procedures/atticRevision.ts';
import { PROCEDURES, revised } from '../../../prisma/seed/procedures/book.ts';
import { GROUND_FAULT_STEPS_REVISED } from '../../../prisma/seed/procedures/groundFaultRevision.ts';
import { SERVICES } from '../../../prisma/seed/starter/services.ts';
import { WISCONSIN_ROWS } from '../../../prisma/seed/procedures/wisconsin.ts';

const stepsOf = (procedures: readonly Procedure[]): Step[] => procedures.flatMap((procedure) => procedure.steps);
const withLesson = (key: string, lesson: readonly Step[]) =>
  PROCEDURES.map((procedure) => (procedure.key === key ? revised(procedure, lesson) : procedure));

const GROUND_FAULT = withLesson('electrical', GROUND_FAULT_STEPS_REVISED);
const ATTIC = withLesson('attic', ATTIC_STEPS_REVISED);
const BOOKS = [
  ['first revision', PROCEDURES],
  ['with the ground-fault lesson', GROUND_FAULT],
  ['with the attic lesson', ATTIC],
] as const;

const KIT = [
  'ladder',
  'flashlight',
  'receptacle_tester',
  'voltage_tester',
  'thermometer',
  'moisture_meter',
  'gas_detector',
  'level',
  'coveralls_respirator',
  'camera',
  'carbon_monoxide_meter',
  'water_pressure_gauge',
  'radon_monitor',
  'infrared_camera',
];

/** 1,800 sq ft on two stories, basement, attached garage, gas furnace, central cooling. */
const MEDIAN: PropertyFacts = {
  kind: 'single_family',
  yearBuilt: 1985,
  units: 1,
  bedrooms: 3,
  foundationMaterial: 'block',
  roofCovering: 'asphalt',
  occupied: 'occupied',
  waterOn: true,
  gasOn: true,
  electricityOn: true,
  winterized: false,
  livingArea: 1800,
  stories: 2,
  bathrooms: 2,
  heatingSystems: 1,
  coolingSystems: 1,
  panels: 1,
  waterHeaters: 1,
  outbuildings: 0,
  foundation: ['basement'],
  features: ['attic', 'attached_garage', 'stairs'],
  heatingKind: ['forced_air'],
  heatingFuel: ['natural_gas'],
  coolingKind: 'central',
  waterSource: 'public',
  waste: 'public_sewer',
};
const MEDIAN_ITEMS: ItemCounts = {
  unit: 1,
  bathroom: 2,
  kitchen: 1,
  heating_system: 1,
  cooling_system: 1,
  panel: 1,
  water_heater: 1,
  garage: 1,
  ground_fault_device: 4,
};
/** Words that speak of current, height, fire, gas, suspect dust or close spaces at the place of work. */
const HURTS = /\b(live (?:part|conductor|wire)s?|ladder set|burner door|crawl in|climb|asbestos|vermiculite)\b/i;
const at = (facts: PropertyFacts, day = '2026-05-12') => ({ facts, services: [], day });

/** Common practice, not measured: a press, or a figure said or typed. */
const SECONDS_FOR_AN_INPUT = 8;

const packageAt = (book: readonly Procedure[], facts: PropertyFacts, services: string[] = ['inspection']) =>
  makePackage(
    book.map(({ key, title, system, steps }) => ({ procedureKey: key, title, system, steps, revisionId: key, number: 1 })),
    {
      facts,
      services,
      serviceNames: {},
      day: '2026-05-12',
      pair: true,
      items: Object.entries({
        ...MEDIAN_ITEMS,
        deck: facts.features?.includes('deck') ? 1 : 0,
        fireplace: facts.features?.includes('fireplace') ? 1 : 0,
      }).flatMap(([kind, count]) =>
        Array.from({ length: count }, (_, n) => ({ id: `${kind}-${n}`, kind: kind as never, label: `${kind} ${n}` })),
      ),
    },
  );

describe.each(BOOKS)('procedure book, %s', (_name, book) => {
  const steps = stepsOf(book);
  it('passes every check of a revision', () => expect(checkRevision(steps)).toEqual([]));
  it('has rules over known facts only', () =>
    expect(
      steps.flatMap((step) =>
        checkRule(
          step.applies,
          SERVICES.map(({ key }) => key),
        ),
      ),
    ).toEqual([]));
  it('uses kit of the firm only', () => expect(steps.flatMap((step) => step.kit).filter((item) => !KIT.includes(item))).toEqual([]));
  it('names published rows that are duties, and covers all of the rule on components', () => {
    const duties = new Set(WISCONSIN_ROWS.filter(isDuty).map((row) => row.id));
    expect(steps.flatMap((step) => (step.basis.kind === 'duty' ? step.basis.rows : [])).filter((row) => !duties.has(row))).toEqual([]);
    expect(uncoveredRows(WISCONSIN_ROWS, book)).toEqual([]);
  });
  it('gives a reference to every step', () =>
    expect(steps.filter((step) => step.references.length === 0).map((step) => step.key)).toEqual([]));
  it('takes a pair 130 to 170 minutes and at most 8 partner checks at a median house', () => {
    const budget = siteBudget(steps, at(MEDIAN), MEDIAN_ITEMS);
    expect(budget.minutes).toBeGreaterThanOrEqual(130);
    expect(budget.minutes).toBeLessThanOrEqual(170);
    expect(budget.partnerChecks).toBeLessThanOrEqual(8);
    expect(budget.partnerChecks).toBeGreaterThan(0);
  });
  it("closes a median house with at most 120 inputs of each and a tenth of the time on site (the firm's own limits)", () => {
    const burden = visitBurden(packageAt(book, MEDIAN));
    expect(burden.perPerson, JSON.stringify(burden.parts)).toBeLessThanOrEqual(120);
    expect(burden.partnerChecks).toBeLessThanOrEqual(8);
    const minutes = siteBudget(steps, at(MEDIAN), MEDIAN_ITEMS).minutes;
    expect((burden.perPerson * SECONDS_FOR_AN_INPUT) / 60).toBeLessThanOrEqual(minutes / 10);
  });
  it('counts what is done besides the steps, and no step twice that the door or the test of a device answers', () => {
    const whole = packageAt(book, MEDIAN);
    const part = (steps: typeof whole, what: string) => visitBurden(steps).parts.find((one) => one.what.startsWith(what))!.shared;
    const without = (fits: (one: (typeof whole)[number]) => boolean) => whole.filter((one) => !fits(one));
    expect(part(whole, 'stop lists')).toBe(5); // one panel; roof and attic with coming out
    expect(
      part(
        without(({ step }) => step.place === 'attic'),
        'stop lists',
      ),
    ).toBe(3);
    expect(part(whole, 'ground-fault')).toBe(1 + 4 * 7);
    const noDevices = without(({ item }) => item?.kind === 'ground_fault_device');
    expect(part(noDevices, 'ground-fault')).toBe(0);
    const atDoor = ['adult-present-or-vacant', 'animals-secured', 'ask-before-power', 'recording-and-private-things', 'utilities-as-found'];
    const elsewhere = without(
      ({ step, item }) => atDoor.includes(step.key) || step.key === 'weather-outside' || item?.kind === 'ground_fault_device',
    );
    expect(part(whole, 'steps')).toBe(burdenOf(elsewhere).shared);
    const photo = whole.find(({ step }) => step.evidence.kind === 'photo')!;
    expect(burdenOf([photo])).toMatchObject({ shared: 3 + 1, each: 0 }); // asked for, taken, kept; and the page
  });
  it('stays within the same limits, as for its steps, while nobody knows the year of building, and with deck, fireplace, chimney and sump', () => {
    const unknown = burdenOf(packageAt(book, { ...MEDIAN, yearBuilt: undefined }));
    const more = burdenOf(packageAt(book, { ...MEDIAN, features: [...MEDIAN.features!, 'deck', 'fireplace', 'chimney', 'sump_pump'] }));
    expect([unknown.perPerson, more.perPerson].filter((inputs) => inputs > 120)).toEqual([]);
  });
});

describe('procedure book, as a whole', () => {
  const all = stepsOf(PROCEDURES);
  it('has 150 steps or more, each with a title of its own', () => {
    expect(all.length).toBeGreaterThanOrEqual(150);
    expect(new Set(all.map(({ title }) => title)).size).toBe(all.length);
  });
  it('says of every step at a place with a stop list where it is done, as its system would have it', () => {
    const unsaid = (procedure: Procedure) =>
      procedure.steps.flatMap(({ key, place, per }) => {
        const bySystem = hazardPlaceOf({ stepKey: key, system: procedure.system, per, itemId: null });
        return (place ?? null) === bySystem || place === 'elsewhere' ? [] : [key];
      });
    expect([...PROCEDURES, ...ATTIC].flatMap(unsaid)).toEqual([]);
    expect(stepsOf(ATTIC).flatMap(({ key, place }) => (place === 'elsewhere' ? [key] : []))).toEqual([
      'snow-cover',
      'bath-fan-cap-outside',
    ]);
  });
  it('has a caution at whatever can hurt', () =>
    expect(all.filter(({ instruction, caution }) => caution === undefined && HURTS.test(instruction)).map(({ key }) => key)).toEqual([]));
  it('hands out what was ordered, and only then', () => {
    const systems = (services: string[]) =>
      new Set(packageAt(PROCEDURES, { ...MEDIAN, features: ['pool', 'spa', 'attic'] }, services).map(({ system }) => system));
    const addOns = ['pool_spa', 'lawn_sprinklers', 'radon', 'wood_insects', 'infrared'];
    expect(addOns.filter((system) => systems(['inspection']).has(system))).toEqual([]);
    expect(addOns.filter((system) => !systems(['inspection', ...addOns]).has(system))).toEqual([]);
  });
  it.each([
    ['US-WI', []],
    ['US-FL', []],
    ['US-NY', []],
    ['US-IL', ['SOP-361']],
    ['US-MA', ['SOP-357', 'SOP-358']],
    ['US-NC', ['SOP-195', 'SOP-203']],
    ['US-TX', ['SOP-004', 'SOP-100', 'SOP-106', 'SOP-111', 'SOP-115', 'SOP-116']],
    ['US-WA', ['SOP-332', 'SOP-341', 'SOP-367']],
  ])('leaves these duties of %s without a step: %j', (jurisdiction, gaps) => {
    const standard = STANDARDS.find((one) => one.jurisdiction === jurisdiction)!;
    const rows = coverageOf(standard, PROCEDURES, MET_ELSEWHERE);
    expect(rows.filter(({ covered }) => !covered).map(({ id }) => id)).toEqual(gaps);
  });
  it('names rows of other states that are on file', () => {
    const known = new Set(STANDARDS.flatMap(({ rows }) => rows.map(({ id }) => id)));
    expect(all.flatMap(({ alsoMeets = [] }) => alsoMeets).filter((id) => !known.has(id))).toEqual([]);
  });
});

describe('procedure book, house by house', () => {
  const keysAt = (facts: PropertyFacts, day?: string) =>
    stepsOf(PROCEDURES)
      .filter((step) => timesDone(step, at(facts, day), { ...MEDIAN_ITEMS, deck: 1, fireplace: 1 }) > 0)
      .map((step) => step.key);
  it.each([
    ['no crawl space', MEDIAN, ['water-entry-lowest-level'], ['crawl-space-inside', 'foundation-ventilation']],
    ['crawl space', { ...MEDIAN, foundation: ['crawl_space'] }, ['crawl-space-safe-to-enter', 'crawl-space-inside'], []],
    ['slab', { ...MEDIAN, foundation: ['slab'] }, ['foundation-walls', 'floors-walked'], ['floor-framing', 'water-entry-lowest-level']],
    ['foundation not known', { ...MEDIAN, foundation: undefined }, ['crawl-space-safe-to-enter', 'water-entry-lowest-level'], []],
    ['no cooling', { ...MEDIAN, coolingKind: 'none' }, ['thermostat-as-found'], ['cooling-run', 'cooling-split']],
    [
      'electric heat',
      { ...MEDIAN, heatingFuel: ['electricity'], heatingKind: ['electric'] },
      ['heating-run'],
      ['gas-piping', 'furnace-rise', 'water-heater-draft'],
    ],
    [
      'no features',
      { ...MEDIAN, features: [] },
      ['roof-covering'],
      ['attic-safe-to-enter', 'garage-door-look', 'deck-ledger-and-guards', 'fireplace-damper', 'sump-pump'],
    ],
    ['private well', { ...MEDIAN, waterSource: 'private_well' }, ['private-well-limit'], []],
    ['built 1995', { ...MEDIAN, yearBuilt: 1995 }, [], ['old-wiring-signs', 'buried-oil-tank-signs']],
  ] as const)('%s', (_name, facts, there, absent) => {
    const keys = keysAt(facts as PropertyFacts);
    expect(keys).toEqual(expect.arrayContaining([...there]));
    expect(absent.filter((key) => keys.includes(key))).toEqual([]);
  });
  it('asks for snow in January, not in July', () => {
    expect(keysAt(MEDIAN, '2026-01-15')).toContain('snow-cover');
    expect(keysAt(MEDIAN, '2026-07-15')).not.toContain('snow-cover');
  });
});

describe('lessons', () => {
  const keys = (book: readonly Procedure[], procedure: string) =>
    book.find((one) => one.key === procedure)?.steps.map((step) => step.key) ?? [];
  it('the first revision trips and resets but looks at no receptacle downstream', () => {
    expect(keys(PROCEDURES, 'electrical')).toContain('ground-fault-trip-reset');
    expect(stepsOf(PROCEDURES).filter((step) => step.evidence.kind === 'count' && step.evidence.mustMatch !== undefined)).toEqual([]);
  });
  it('the ground-fault lesson puts the test between two counts, in the place of the old step', () => {
    const before = keys(PROCEDURES, 'electrical');
    const place = before.indexOf('ground-fault-trip-reset');
    expect(keys(GROUND_FAULT, 'electrical')).toEqual([
      ...before.slice(0, place),
      'live-receptacles-before',
      'ground-fault-trip-reset',
      'live-receptacles-after',
      ...before.slice(place + 1),
    ]);
    expect(GROUND_FAULT_STEPS_REVISED[2]?.evidence).toEqual({
      kind: 'count',
      of: 'receptacles live',
      mustMatch: 'live-receptacles-before',
    });
  });
  it('the attic lesson retires the old key', () => {
    expect(keys(ATTIC, 'attic')).not.toContain('attic-bath-fan-duct');
    expect(keys(ATTIC, 'attic')).toEqual(expect.arrayContaining(['bath-fan-duct-traced', 'bath-fan-cap-outside']));
  });
});
