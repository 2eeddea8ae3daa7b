// Exact and approximate limits of Poisson counts, and the exact comparison of two rates.
import type { PublishedCase } from './publishedCase.ts';

const garwood = 'Garwood, Biometrika 28 (1936) 437-442; Ulm, Am. J. Epidemiology 131 (1990) 373-375';
const poissonTest = 'R stats package, help page of poisson.test, examples';

type Limits = [number, number];

/** 95 % table values to the digits printed; the others recomputed with R 4.2.2. */
export const counts: (PublishedCase & { count: number; table95: Limits; exact90: Limits; exact95: Limits; exact99: Limits; byar95: Limits })[] = [
  {
    name: 'count 0',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 0, table95: [0, 3.689],
    exact90: [0.0, 2.9957322735539895],
    exact95: [0.0, 3.6888794541139354],
    exact99: [0.0, 5.298317366548036],
    byar95: [0.0, 3.66801183217375],
  },
  {
    name: 'count 1',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 1, table95: [0.0253, 5.572],
    exact90: [0.05129329438755053, 4.743864518390577],
    exact95: [0.025317807984289897, 5.571643390938898],
    exact99: [0.005012541823544286, 7.430129500280121],
    byar95: [0.0130721329015044, 5.5637555824752605],
  },
  {
    name: 'count 2',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 2, table95: [0.242, 7.225],
    exact90: [0.35536151069866195, 6.295793621871988],
    exact95: [0.24220927854396507, 7.22468766772396],
    exact99: [0.10349454674809108, 9.273792089255544],
    byar95: [0.224625211349983, 7.220869000857791],
  },
  {
    name: 'count 3',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 3, table95: [0.619, 8.767],
    exact90: [0.8176914471639533, 7.753656527932725],
    exact95: [0.6186721228956015, 8.767273069742323],
    exact99: [0.33786338872773347, 10.977477495329765],
    byar95: [0.60297257097023, 8.76536439674634],
  },
  {
    name: 'count 4',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 4, table95: [1.09, 10.24],
    exact90: [1.3663183967498307, 9.153519026637573],
    exact95: [1.089865373626325, 10.241588675403694],
    exact99: [0.6722065435074053, 12.594089785985584],
    byar95: [1.07615040816172, 10.24075273911405],
  },
  {
    name: 'count 5',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 5, table95: [1.62, 11.67],
    exact90: [1.97014956805953, 10.513034908741535],
    exact95: [1.623486390118421, 11.66833207932267],
    exact99: [1.0779282406523196, 14.149759411023012],
    byar95: [1.61134771574719, 11.6681641233986],
  },
  {
    name: 'count 6',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 6, table95: [2.2, 13.06],
    exact90: [2.6130147441963194, 11.842395652420288],
    exact95: [2.201894253490851, 13.059474022518685],
    exact99: [1.536911819044667, 15.65967481129764],
    byar95: [2.19098581064193, 13.05975085860477],
  },
  {
    name: 'count 7',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 7, table95: [2.81, 14.42],
    exact90: [3.285315691894671, 13.148113802432116],
    exact95: [2.814363051519867, 14.422675361702376],
    exact99: [2.0373374786996714, 17.133593268913344],
    byar95: [2.80443068507507, 14.42326255993905],
  },
  {
    name: 'count 8',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 8, table95: [3.45, 15.76],
    exact90: [3.980822786189275, 14.434649715196311],
    exact95: [3.4538321767485023, 15.763189220193313],
    exact99: [2.5711027215218474, 18.57822572830337],
    byar95: [3.44469064968737, 15.76400049392261],
  },
  {
    name: 'count 9',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 9, table95: [4.12, 17.08],
    exact90: [4.695227540344492, 15.705216422115459],
    exact95: [4.115373097378334, 17.084803451419166],
    exact99: [3.132402342253232, 19.998423156469325],
    byar95: [4.10688502401313, 17.08578068853668],
  },
  {
    name: 'count 10',
    source: garwood, status: 'table from memory, digits computed with R 4.2.2',
    count: 10, table95: [4.8, 18.39],
    exact90: [5.425405697091292, 16.962219235721903],
    exact95: [4.7953886961324335, 18.39035604201778],
    exact99: [3.716922131467116, 21.397827499654273],
    byar95: [4.78744991396756, 18.39145860575647],
  },
];

type Rate = { count: number; exposure: number };

export const singleRates: (PublishedCase & { rate: Rate; expected: number; limits: Limits })[] = [
  {
    name: 'one-sample: 137 events, expected 24.19893',
    source: poissonTest, status: 'found, digits computed with R 4.2.2',
    rate: { count: 137, exposure: 24.19893 },
    expected: 5.66140734321724, limits: [4.75312480484875, 6.69270933417607],
  },
];

/** p is the two-sided one by minimum likelihood, as R gives it. */
export const rateRatios: (PublishedCase & { group: Rate; reference: Rate; p: number; ratio: number; limits: Limits })[] = [
  {
    name: 'two-sample: Fredericia 11/800 vs other cities 21/3011',
    source: poissonTest, status: 'found, digits computed with R 4.2.2',
    group: { count: 11, exposure: 800 },
    reference: { count: 21, exposure: 3011 },
    p: 0.07966863303333, ratio: 1.9714880952381, limits: [0.858426403391639, 4.277265943654071],
  },
  {
    name: 'small before/after: 3/412 vs 9/398',
    source: 'computed with R 4.2.2 poisson.test', status: 'computed',
    group: { count: 3, exposure: 412 },
    reference: { count: 9, exposure: 398 },
    p: 0.08724409896732, ratio: 0.322006472491909, limits: [0.0560726284038906, 1.2902891428043661],
  },
  {
    name: 'zero events: 0/250 vs 6/270',
    source: 'computed with R 4.2.2 poisson.test', status: 'computed',
    group: { count: 0, exposure: 250 },
    reference: { count: 6, exposure: 270 },
    p: 0.03194444302595, ratio: 0.0, limits: [0.0, 0.917256089841109],
  },
];

type Comparison = { ratio: number; groupShare?: number; alpha?: number; power?: number };

const conditional = 'Przyborowski & Wilenski, Biometrika 31 (1940) 313-323';
const computed = 'computed with scipy 1.17 from exact binomial tails, every total tried';

/** Failures in both groups together from which on the exact test keeps its power. */
export const plannedTotals: (PublishedCase & { comparison: Comparison; total: number; inReference: number })[] = [
  { name: 'halving, equal exposure', source: conditional, status: computed, comparison: { ratio: 0.5 }, total: 77, inReference: 51 },
  { name: 'doubling, equal exposure', source: conditional, status: computed, comparison: { ratio: 2 }, total: 77, inReference: 26 },
  { name: 'halving, power 0.9', source: conditional, status: computed, comparison: { ratio: 0.5, power: 0.9 }, total: 99, inReference: 66 },
  { name: 'quarter left', source: conditional, status: computed, comparison: { ratio: 0.25 }, total: 23, inReference: 18 },
  {
    name: 'halving, a quarter of the exposure after it',
    source: conditional, status: computed,
    comparison: { ratio: 0.5, groupShare: 0.25 }, total: 123, inReference: 105,
  },
  {
    name: 'doubling, a quarter of the exposure after it',
    source: conditional, status: computed,
    comparison: { ratio: 2, groupShare: 0.25 }, total: 84, inReference: 50,
  },
  { name: 'none left: 2 / 2^6 is below 0.05, 2 / 2^5 is not', source: conditional, status: 'by hand', comparison: { ratio: 0 }, total: 6, inReference: 6 },
];
