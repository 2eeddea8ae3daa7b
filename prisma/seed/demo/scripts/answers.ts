// What a pair finds at each step of an invented house.
import type { Evidence } from '@backsight/domain/procedures/step';
import type { CouldNotReason, EntryEvidence, StepOutcome } from '@backsight/domain/sitework/value';
import type { IssuedStep } from '@backsight/store/sitework';
import type { Chance } from '../chance.ts';

export type Found = {
  outcome: StepOutcome;
  evidence: EntryEvidence | null;
  reason: CouldNotReason | null;
  note: string | null;
  defect: string | null;
};
export type FindingContext = {
  chance: Chance;
  winter: boolean;
  vacant: boolean;
  counts: Map<string, number>;
  /** Everything is found as it should be. */ sound: boolean;
};

const done = (evidence: EntryEvidence, note: string | null = null, defect: string | null = null): Found => ({
  outcome: 'done',
  evidence,
  reason: null,
  note,
  defect,
});
const couldNot = (reason: CouldNotReason, note: string | null = null): Found => ({
  outcome: 'could_not',
  evidence: null,
  reason,
  note,
  defect: null,
});

/** Words for the steps that are answered in words; the last is what is usual. */
const NOTES: Record<string, readonly string[]> = {
  'ask-before-power': [
    'Refrigerator in the garage, sump pump in the basement',
    'Computer in the study, shut down by the owner',
    'Aquarium in the living room',
    'None',
  ],
  'utilities-as-found': ['Valve of the outside faucet closed', 'Breaker 14 off, labeled dryer', 'All on'],
  'found-off-told': ['Client told at the panel; return visit offered', 'Nothing was off'],
  'damage-told': ['None'],
  'service-rating': ['100 A, 240 V, overhead', '200 A, 240 V, underground', '150 A, 240 V, overhead'],
  'panel-location-and-space': [
    'Basement, north wall; shelf in front',
    'Garage, left of the door; space clear',
    'Basement stairs; space clear',
  ],
  'receptacle-polarity-and-grounding': ['Two ungrounded in the front bedroom', 'One reversed beside the kitchen sink', 'None'],
  'ground-fault-where-expected': ['None at the outside receptacle by the deck', 'None at the laundry sink', 'None missing'],
  'water-meter-and-main-valve': ['Meter in the street; main valve behind the furnace', 'Both in the basement, front wall'],
  'water-heater-plate-and-pan': ['Natural gas, 50 gal, 2009; no pan', 'Natural gas, 40 gal, 2016; cold valve turns free as seen'],
  'winterized-house': ['Tags of a plumber at sink and heater; return visit offered'],
  'utility-off-limits': ['Gas off; furnace and water heater left out; seller asks the utility'],
  'vacant-house-signs': ['Dry traps in the basement bath', 'Nothing unusual'],
  'radon-monitor-place': ['Basement family room, shelf 30 in above the floor'],
  'insects-report-line': ['Behind finished basement walls not seen; no visible evidence'],
  'water-sample-taken': ['Kitchen, cold, after five minutes'],
};
const PLAIN = ['As usual for a house of its age', 'Nothing unusual', 'As found, no sign of trouble'];

/** Usual readings that lie inside or outside the expected range. */
const READINGS: Record<string, readonly [number, number]> = { 'air-on-entering': [0, 3], 'attic-insulation': [7, 18] };

const noteFor = (key: string, chance: Chance): string => {
  const words = NOTES[key] ?? PLAIN;
  return chance.odds(0.62) ? words.at(-1)! : chance.pick(words);
};

const DEFECTS: readonly (readonly [string, string, string])[] = [
  ['panel-interior', 'fault', 'Two conductors under one screw in the panel; an electrician should separate them.'],
  ['panel-interior', 'aluminum', 'Aluminum branch wiring seen in the panel; have an electrician judge the connections.'],
  ['ground-fault-trip-reset', 'no_trip', 'A ground-fault device does not trip and protects nobody; replace it.'],
  ['service-equipment-and-grounding', 'loose', 'The grounding clamp at the water pipe is loose.'],
  ['roof-underside', 'wet', 'The underside of the roof is damp; find and stop the leak.'],
];

function chosen(key: string, options: readonly { key: string }[], { chance, sound }: FindingContext): Found {
  const option = sound || chance.odds(0.84) ? options[0]!.key : chance.pick(options).key;
  const defect = DEFECTS.find(([stepKey, answer]) => stepKey === key && answer === option)?.[2] ?? null;
  return done({ kind: 'choice', option }, null, defect);
}

const toTenth = (value: number): number => Math.round(value * 10) / 10;

function reading(key: string, asked: Extract<Evidence, { kind: 'reading' }>, { chance, winter }: FindingContext): EntryEvidence {
  const [low, high] = READINGS[key] ?? [asked.expectedFrom ?? 10, asked.expectedTo ?? (asked.expectedFrom ?? 10) * 1.5 + 5];
  const outside = chance.odds(0.05) ? (high - low) * 0.3 : 0;
  const value =
    key === 'weather-outside'
      ? winter
        ? chance.between(18, 45)
        : chance.between(52, 84)
      : toTenth(low + (high - low) * chance.next() + outside);
  return { kind: 'reading', value, unit: asked.unit };
}

function counted(step: IssuedStep, asked: Extract<Evidence, { kind: 'count' }>, { chance, counts }: FindingContext): EntryEvidence {
  const before = asked.mustMatch === undefined ? undefined : counts.get(`${asked.mustMatch}@${step.itemId}`);
  const count = before ?? chance.between(4, 9);
  counts.set(`${step.stepKey}@${step.itemId}`, count);
  return { kind: 'count', count };
}

const SNOWED_UNDER = ['roof', 'exterior'];

/** What is written down at one step. */
export function find(step: IssuedStep, context: FindingContext): Found {
  const { chance } = context;
  const { evidence, per } = step.body;
  if (context.winter && SNOWED_UNDER.includes(step.system) && chance.odds(0.25)) return couldNot('snow_or_ice');
  if (step.body.caution && per === 'property' && chance.odds(0.02)) return couldNot(chance.pick(['unsafe', 'blocked', 'no_way_in']));
  switch (evidence.kind) {
    case 'confirm':
      return done({ kind: 'confirm' });
    case 'note':
      return done({ kind: 'note' }, noteFor(step.stepKey, chance));
    case 'choice':
      return step.stepKey === 'adult-present-or-vacant'
        ? done({ kind: 'choice', option: context.vacant ? 'vacant' : 'adult' })
        : chosen(step.stepKey, evidence.options, context);
    case 'photo':
      return done({ kind: 'photo', without: 'other' }, 'Taken with the camera of the report and kept with it.');
    case 'count':
      return done(counted(step, evidence, context));
    case 'reading':
      return done(reading(step.stepKey, evidence, context));
    case 'difference':
      return done(difference(evidence, chance));
  }
}

function difference(asked: Extract<Evidence, { kind: 'difference' }>, chance: Chance): EntryEvidence {
  const first = chance.between(54, 60);
  const low = asked.expectedFrom ?? 14;
  return { kind: 'difference', first, second: toTenth(first + low + chance.next() * ((asked.expectedTo ?? 22) - low)), unit: asked.unit };
}
