// Pairs and persons in a funnel against what their houses led to expect: by name, never ranked; below five expected nothing is said.
import { LEAST_EXPECTED, type Expectation } from '@backsight/domain/liability/people/expected';
import { cannot, type NotEstimable } from '@backsight/statistics/estimate';
import { funnel, type Funnel, type FunnelPoint } from '@backsight/statistics/funnel';
import { funnelLimits, normalFunnelLimits } from '@backsight/statistics/funnelLimits';
import type { ConfidenceInterval } from '@backsight/statistics/interval';
import { namesOfGroups } from '@backsight/store/liability/frequency';
import type { Reader } from '@backsight/store/database';
import { readSpan, type SpanAsked } from '../frequency/span.ts';
import { pairName, readMix } from './mix.ts';

type Named = Expectation & { name: string };
type UnitShown =
  | { unit: string; name: string; jobs: number; state: 'too_few' }
  | ({ unit: string; name: string; jobs: number; state: 'shown'; observed: number; expected: number; ratio: number } & Pick<
      FunnelPoint,
      'limits95' | 'limits998' | 'position' | 'side' | 'sentence'
    >);
type Band = { size: number; limits95: ConfidenceInterval; limits998: ConfidenceInterval };
export type FunnelShown = { units: UnitShown[]; bands: Band[]; sentence: string };

const NOTHING = 'Cannot be estimated because nothing was inspected in these months.';

/** All pairs and all persons. */
export async function readPeople(reader: Reader, asked: SpanAsked) {
  const { from, until, young, compared } = await readSpan(reader, asked);
  const head = { from, until, young, compared: compared?.sentence ?? NOTHING };
  if (!compared) return { ...head, pairs: funnelOf([]), people: funnelOf([]) };
  const { pairs, people } = await readMix(reader, compared);
  const names = await personNames(reader);
  return {
    ...head,
    pairs: funnelOf(pairs.map((one) => ({ ...one, name: pairName(one.unit, names) }))),
    people: funnelOf(people.map((one) => ({ ...one, name: names.get(one.unit) ?? one.unit }))),
  };
}

/** One person's own figure; limits come from everybody, figures of others never leave. */
export async function readOwnFigures(reader: Reader, { personId, ...asked }: SpanAsked & { personId: string }) {
  const all = await readPeople(reader, asked);
  const own = all.people.units.find(({ unit }) => unit === personId);
  const nothing: NotEstimable = cannot('no_exposure', 'you were not on an inspection of these months');
  const shown = own?.state === 'shown' ? own : null;
  return {
    ...{ from: all.from, until: all.until, young: all.young, compared: all.compared },
    own: own ?? nothing,
    // Sizes of the limits would tell how many callbacks the busiest person had to expect.
    bands: shown ? all.people.bands.filter(({ size }) => size <= shown.expected * 1.5) : [],
    sentence: shown ? all.people.sentence : '',
  };
}

const personNames = async (reader: Reader): Promise<Map<string, string>> =>
  new Map((await namesOfGroups(reader)).flatMap(({ kind, key, name }) => (kind === 'person' ? [[key, name]] : [])));

function funnelOf(all: readonly Named[]): FunnelShown {
  const shown = all.filter(({ expected }) => expected >= LEAST_EXPECTED);
  const found = funnel(
    'poisson',
    shown.map(({ unit, observed, expected }) => ({ name: unit, count: Math.max(0, observed), size: expected })),
    1,
  );
  const units = all
    .map((one) => unitOf(one, found.ok ? found : null))
    .sort((a, b) => a.name.localeCompare(b.name, 'en-US') || (a.unit < b.unit ? -1 : 1));
  if (!found.ok)
    return {
      units,
      bands: [],
      sentence: `Cannot be estimated because nobody here has ${LEAST_EXPECTED} expected callbacks yet: fewer would be judged by chance.`,
    };
  return { units, bands: bandsOf(found, Math.max(...shown.map(({ expected }) => expected))), sentence: limitWords(found) };
}

function unitOf({ unit, name, jobs, observed, expected }: Named, found: Funnel | null): UnitShown {
  const point = found?.points.find((one) => one.name === unit);
  if (!point) return { unit, name, jobs, state: 'too_few' };
  const { value, limits95, limits998, position, side, sentence } = point;
  const place = { ratio: value, limits95, limits998, position, side, sentence: sentence.replace(unit, name) };
  return { unit, name, jobs, state: 'shown', observed: Math.max(0, observed), expected, ...place };
}

const STEPS = 48;

/** Limits from one expected callback on, as the points have them. */
function bandsOf({ limits, dispersion }: Funnel, most: number): Band[] {
  return Array.from({ length: STEPS + 1 }, (_, at) => {
    const size = 1 + ((most * 1.08 - 1) * at) / STEPS;
    const line = { model: 'poisson', target: 1, size } as const;
    const limitsAt = (confidence: number): ConfidenceInterval =>
      limits === 'exact' ? funnelLimits(line, confidence) : normalFunnelLimits(line, confidence, dispersion.between);
    return { size, limits95: limitsAt(0.95), limits998: limitsAt(0.998) };
  });
}

function limitWords({ limits, dispersion: { phi, p } }: Funnel): string {
  const scatter = `All figures together scatter ${phi.toFixed(1)} times as much as chance alone would have it (p ${p.toFixed(2)})`;
  return limits === 'exact'
    ? `${scatter}: the limits are those of chance alone (exact).`
    : `${scatter}, so the limits are widened by what all have in common beyond chance.`;
}
