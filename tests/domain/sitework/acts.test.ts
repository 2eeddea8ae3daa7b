// What the pair does on site besides the steps: the test of a ground-fault device, leaving it as found, danger, and who takes what.
import { HAZARD_PLACES, type HazardPlace, type StepPlace } from '@backsight/domain/shared/places';
import { describe, expect, it } from 'vitest';
import { actKey, type ActWords, type SiteAct } from '@backsight/domain/sitework/act';
import { limitsMet, type Measures } from '@backsight/domain/sitework/accessLimits';
import { checkAct } from '@backsight/domain/sitework/actCheck';
import { coolingAdvice, heatPumpAdvice } from '@backsight/domain/sitework/conditions';
import { answerOf, countsOf, deviceTests, nextPart, notBack, notProtected } from '@backsight/domain/sitework/deviceTest';
import { divide, minutesOf } from '@backsight/domain/sitework/divide';
import { closes, hazardPlaceOf, stopsOf } from '@backsight/domain/sitework/hazards';
import { insideNow, overdueFor } from '@backsight/domain/sitework/inside';
import { notRestored, stillOpen } from '@backsight/domain/sitework/restore';
import { doorAnswer } from '@backsight/domain/sitework/doorAnswers';
import { PROCEDURES } from '../../../prisma/seed/procedures/book.ts';
import { anAct, NOON } from './parts.ts';

const outlet = (id: string, where: string, more: Partial<Extract<SiteAct, { do: 'outlet' }>> = {}, appliance?: string) =>
  anAct({ do: 'outlet', device: 'd', outlet: id, reached: true, runs: null, ...more }, 'ann', {
    where,
    ...(appliance ? { appliance } : {}),
  });
const trip = (dead: string[], result: 'trips' | 'no_trip' | 'dead_as_found' = 'trips') =>
  anAct({ do: 'trip', device: 'd', by: 'button', result, dead });
const reset = (resets = true) => anAct({ do: 'reset', device: 'd', resets });
const back = (live: string[], dead: string[] = []) => anAct({ do: 'power_back', device: 'd', live, dead });

describe('the test of a ground-fault device', () => {
  const noted = [
    outlet('b', 'upstairs bath'),
    outlet('g', 'garage'),
    outlet('k', 'kitchen'),
    outlet('f', 'garage', { reached: false, runs: true }, 'freezer, green light'),
    outlet('x', 'garage', { reached: false, runs: false }, 'old radio, off'),
  ];
  it.each<[string, ReturnType<typeof anAct>[], string, string[]]>([
    ['before the trip nothing is owed', noted, 'note', []],
    ['a device that does not trip interrupts nothing', [...noted, trip([], 'no_trip')], 'whole', []],
    ['one that was dead as found neither', [...noted, trip([], 'dead_as_found')], 'whole', []],
    ['tripped: everything that was live is owed, the still live too', [...noted, trip(['b', 'g'])], 'reset', ['b', 'g', 'k', 'f']],
    ['reset is no proof of power', [...noted, trip(['b', 'g']), reset()], 'confirm', ['b', 'g', 'k', 'f']],
    ['seen live again, but the freezer not looked at', [...noted, trip(['b', 'g']), reset(), back(['b', 'g', 'k'])], 'confirm', ['f']],
    ['one stays dead', [...noted, trip(['b', 'g']), reset(), back(['b', 'k', 'f'], ['g'])], 'told', ['g']],
    ['all live again', [...noted, trip(['b', 'g']), reset(), back(['b', 'g', 'k', 'f'])], 'whole', []],
    ['a second trip asks again', [...noted, trip(['b']), reset(), back(['b', 'g', 'k', 'f']), trip(['b'])], 'reset', ['b', 'g', 'k', 'f']],
  ])('%s', (_, acts, next, owed) => {
    const test = deviceTests(acts).get('d')!;
    expect(nextPart(test)).toBe(next);
    expect(
      notBack(test)
        .map(({ id }) => id)
        .sort(),
    ).toEqual([...owed].sort());
  });
  it('counts what was reached, names what the device does not protect, and answers the steps of the book', () => {
    const test = deviceTests([...noted, trip(['b', 'g']), reset(), back(['b', 'k', 'f'], ['g'])]).get('d')!;
    expect(countsOf(test)).toEqual({ before: 3, dead: 2, after: 2 });
    expect(notProtected(test).map(({ where }) => where)).toEqual(['kitchen']);
    const options = ['trips_resets', 'no_trip', 'no_reset', 'dead'].map((key) => ({ key }));
    const answers = [{ kind: 'count' }, { kind: 'choice', options }, { kind: 'count', mustMatch: 'x' }, { kind: 'note' }].map((evidence) =>
      answerOf({ stepKey: 's', evidence }, test),
    );
    expect(answers).toEqual([{ kind: 'count', count: 3 }, { kind: 'choice', option: 'trips_resets' }, { kind: 'count', count: 2 }, null]);
  });
  it('a device that does not reset is owed too, until client and office were told', () => {
    const acts = [...noted.slice(0, 1), trip(['b']), reset(false), back([], ['b'])];
    expect(stillOpen(acts).map(({ ref, kind }) => [ref, kind])).toEqual([
      ['d', 'device'],
      ['b', 'outlet'],
    ]);
    const told = anAct({ do: 'told', of: ['d', 'b'] }, 'ann', { client: 'Paula', office: 'Olga' });
    expect(stillOpen([...acts, told])).toEqual([]);
    expect(notRestored([...acts, told])).toHaveLength(2);
  });
});

describe('leaving it as found', () => {
  it('knows only what we changed, until it is put back', () => {
    const heat = anAct({ do: 'changed', thing: 'thermostat' }, 'ann', { where: 'hall', was: '68 F' });
    const gate = anAct({ do: 'changed', thing: 'gate' }, 'ben', { where: 'yard' });
    expect(stillOpen([heat, gate, anAct({ do: 'put_back', of: heat.id })]).map(({ ref }) => ref)).toEqual([gate.id]);
    expect(stillOpen([])).toEqual([]);
  });
});

describe('taking an act in', () => {
  const items = [
    { id: 'd', kind: 'ground_fault_device' as const, label: 'bath' },
    { id: 'p', kind: 'panel' as const, label: 'panel' },
  ];
  const change = anAct({ do: 'changed', thing: 'light' }, 'ann', { where: 'hall' });
  const check = (
    act: SiteAct,
    words: ActWords = {},
    more: { acts?: ReturnType<typeof anAct>[]; pair?: string[]; stepKey?: string } = {},
  ) => {
    const context = {
      acts: more.acts ?? [change],
      items,
      pair: more.pair ?? ['ann', 'ben'],
      stepKeys: new Set(['s']),
      photosToCome: new Set(['p']),
    };
    const result = checkAct({ act, words, stepKey: more.stepKey ?? actKey(act.do) }, context);
    return result.ok ? result.warnings.map(({ code }) => code).join() || 'taken' : result.code;
  };
  const wentIn: SiteAct = { do: 'went_in', place: 'crawl_space', backBy: NOON };
  const look = (stops: string[]) => anAct({ do: 'hazard_look', place: 'crawl_space', item: null, stops });
  const rows: [string, string, string][] = [
    ['another key', check({ do: 'reset', device: 'd', resets: true }, {}, { stepKey: 'site:trip' }), 'act-key'],
    ['a device that is none', check({ do: 'reset', device: 'p', resets: true }), 'act-unknown-thing'],
    ['a receptacle nobody noted', check({ do: 'trip', device: 'd', by: 'button', result: 'trips', dead: ['?'] }), 'act-unknown-thing'],
    ['a trip before the question', check({ do: 'trip', device: 'd', by: 'button', result: 'trips', dead: [] }), 'loads-not-asked'],
    [
      'a trip after it',
      check(
        { do: 'trip', device: 'd', by: 'button', result: 'trips', dead: [] },
        {},
        { acts: [anAct({ do: 'loads', asked: 'looked', loads: [] })] },
      ),
      'taken',
    ],
    ['a receptacle without its place', check({ do: 'outlet', device: 'd', outlet: 'o', reached: true, runs: null }), 'act-words-missing'],
    [
      'one out of reach without its appliance',
      check({ do: 'outlet', device: 'd', outlet: 'o', reached: false, runs: true }, { where: 'garage' }),
      'act-words-missing',
    ],
    ['putting back what was changed', check({ do: 'put_back', of: change.id }), 'taken'],
    ['putting back what was not', check({ do: 'put_back', of: 'd' }), 'act-unknown-thing'],
    ['telling without names', check({ do: 'told', of: [change.id] }), 'act-words-missing'],
    ['a stop of another place', check({ do: 'hazard_look', place: 'roof', item: null, stops: ['sewage'] }), 'act-unknown-thing'],
    ['a panel without its panel', check({ do: 'hazard_look', place: 'panel', item: 'd', stops: [] }), 'act-unknown-thing'],
    ['going in alone', check(wentIn, {}, { pair: ['ann'] }), 'not-alone'],
    ['going in without a look', check(wentIn), 'not-looked'],
    ['going in after a clear look', check(wentIn, {}, { acts: [look([])] }), 'taken'],
    ['going in despite a stop', check(wentIn, {}, { acts: [look(['sewage'])] }), 'despite-a-stop'],
    ['leaving before coming', check({ do: 'signed_off', from: NOON, until: '2026-05-12T16:59:00Z' }), 'times-on-site'],
    ['damage without a word', check({ do: 'damage', what: 'damage', safety: false }), 'act-words-missing'],
    ['a danger without a word', check({ do: 'danger', what: 'gas', house: 'nobody_there', called: false }), 'taken'],
    ['a photo that nobody named', check({ do: 'photo_lost', photo: 'q', why: 'deleted' }), 'act-unknown-thing'],
    [
      'a photo that will not come, for another reason without a word',
      check({ do: 'photo_lost', photo: 'p', why: 'other' }),
      'act-words-missing',
    ],
    ['a photo that will not come', check({ do: 'photo_lost', photo: 'p', why: 'deleted' }), 'taken'],
    ['settling without a reason', check({ do: 'settled', stepKey: 's', item: null }), 'act-words-missing'],
  ];
  it.each(rows)('%s', (_, got, wanted) => expect(got).toBe(wanted));
});

describe('danger', () => {
  const step = (stepKey: string, system: string, per = 'property', itemId: string | null = null) => ({ stepKey, system, per, itemId });
  it.each([
    ['crawl-space-inside', 'structure', 'property', 'crawl_space'],
    ['attic-insulation', 'attic', 'property', 'attic'],
    ['roof-covering', 'roof', 'property', 'roof'],
    ['snow-cover', 'roof', 'property', null],
    ['panel-interior', 'electrical', 'panel', 'panel'],
    ['service-entrance', 'electrical', 'property', null],
  ])('%s is looked at first: %s', (key, system, per, place) => expect(hazardPlaceOf(step(key, system, per))).toBe(place));
  it.each<[StepPlace | null, HazardPlace | null]>([
    ['crawl_space', 'crawl_space'],
    ['elsewhere', null],
    [null, 'roof'],
  ])('a step says where it is done, whatever its key and system: %s', (place, wanted) => {
    expect(hazardPlaceOf({ ...step('roof-covering', 'roof'), place })).toBe(wanted);
    const stop: SiteAct = { do: 'hazard_look', place: 'crawl_space', item: null, stops: ['sewage'] };
    expect(closes(stop, { ...step('roof-covering', 'roof'), place })).toBe(wanted === 'crawl_space');
  });
  it('a stop closes its own place, one panel of several, and a danger closes everything', () => {
    const stop: SiteAct = { do: 'hazard_look', place: 'panel', item: 'p1', stops: ['wet'] };
    const panel = (item: string) => step('panel-interior', 'electrical', 'panel', item);
    expect([closes(stop, panel('p1')), closes(stop, panel('p2')), closes({ ...stop, stops: [] }, panel('p1'))]).toEqual([
      true,
      false,
      false,
    ]);
    expect(closes({ do: 'danger', what: 'gas', house: 'told', called: true }, step('floors-walked', 'structure'))).toBe(true);
  });
  it('every place has its stop list', () => {
    for (const place of Object.keys(HAZARD_PLACES) as HazardPlace[]) expect(stopsOf(place).length).toBeGreaterThanOrEqual(5);
  });
  it('who went in is inside until out, and overdue for the partner, then for the office', () => {
    const went = anAct({ do: 'went_in', place: 'attic', backBy: NOON }, 'ben');
    expect(insideNow([went])).toMatchObject([{ id: went.id, person: 'ben', place: 'attic' }]);
    expect(insideNow([went, anAct({ do: 'came_out', of: went.id })])).toEqual([]);
    const at = (minutes: number) => overdueFor(NOON, Date.parse(NOON) + minutes * 60_000);
    expect([at(-1), at(0), at(9), at(10)]).toEqual(['nobody', 'partner', 'partner', 'office']);
  });
});

describe('dividing the work', () => {
  const steps = [
    { system: 'roof', minutes: 20, partnerCheck: false },
    { system: 'structure', minutes: 30, partnerCheck: false },
    { system: 'structure', minutes: 50, partnerCheck: true },
    { system: 'plumbing', minutes: 25, partnerCheck: false },
    { system: 'interior', minutes: 5, partnerCheck: false },
  ];
  it('is balanced by planned minutes without what both do', () => {
    const parts = divide(steps, ['ann', 'ben'], 'minutes');
    expect(Object.fromEntries(parts.map(({ system, person }) => [system, person]))).toEqual({
      structure: 'ann',
      plumbing: 'ben',
      roof: 'ben',
      interior: 'ann',
    });
    expect([...minutesOf(parts, steps)].sort()).toEqual([
      ['ann', 35],
      ['ben', 45],
    ]);
  });
  it('by system keeps a house from being walked twice; one person has everything', () => {
    expect(
      divide(steps, ['ann', 'ben'], 'system')
        .filter(({ person }) => person === 'ann')
        .map(({ system }) => system),
    ).toEqual(['roof']);
    expect(new Set(divide(steps, ['ann'], 'minutes').map(({ person }) => person))).toEqual(new Set(['ann']));
  });
});

describe('limits of the day and of access', () => {
  it.each([
    [59, 'no'],
    [60, 'care'],
    [64, 'care'],
    [65, 'yes'],
  ])('cooling at %i F: %s (common practice, 60 to 65 F)', (f, run) => expect(coolingAdvice(f).run).toBe(run));
  it.each([
    [65, 'yes'],
    [66, 'care'],
    [70, 'care'],
    [71, 'no'],
  ])('a heat pump in heat at %i F: %s (common practice, 65 to 70 F)', (f, run) => expect(heatPumpAdvice(f).run).toBe(run));
  it.each<[HazardPlace, Measures, string[]]>([
    ['crawl_space', { headroomIn: 17 }, ['Texas', 'Washington', 'New Jersey']], // 22 TAC 535.228(a)(2), WAC 308-408C-070(2), N.J.A.C. 13:40-15.16
    ['crawl_space', { headroomIn: 18 }, ['New Jersey']],
    ['crawl_space', { widthIn: 18, heightIn: 24 }, ['New Jersey']],
    ['crawl_space', { widthIn: 24, heightIn: 17 }, ['Texas', 'Washington', 'New Jersey']],
    ['crawl_space', { headroomIn: 48, widthIn: 36, heightIn: 30 }, []],
    ['attic', { widthIn: 22, heightIn: 29 }, ['New Jersey', 'Texas']], // 22 TAC 535.228(d), from memory
    ['roof', { headroomIn: 1 }, []],
    ['attic', {}, []],
  ])('%s with %o', (place, measures, where) => expect(limitsMet(place, measures).map((met) => met.where)).toEqual(where));
});

describe('what is noted at the door', () => {
  const asked = PROCEDURES.find(({ key }) => key === 'arrival')!.steps.map(({ key: stepKey, evidence }) => ({ stepKey, evidence }));
  const answered = (act: SiteAct, words: ActWords = {}) =>
    asked.flatMap((step) => {
      const answer = doorAnswer(step, act, words);
      return answer ? [[step.stepKey, answer.evidence, answer.note]] : [];
    });
  it('answers the arrival steps of the book that ask for the same', () => {
    expect(answered({ do: 'arrival', there: 'vacant', animals: 'none', recording: 'not_said', inView: [] })).toEqual([
      ['adult-present-or-vacant', { kind: 'choice', option: 'vacant' }, ''],
      ['animals-secured', { kind: 'confirm' }, ''],
      ['recording-and-private-things', { kind: 'choice', option: 'not_said' }, ''],
    ]);
    const day = {
      do: 'conditions',
      outdoorF: 52,
      rain48: 'some',
      snow: 'none',
      water: 'off',
      gas: 'on',
      electricity: 'off',
      house: 'vacant',
    } as const;
    expect(answered(day)).toEqual([
      ['utilities-as-found', { kind: 'note' }, 'water off as found, electricity off as found'],
      ['weather-outside', { kind: 'reading', value: 52, unit: 'F' }, 'Rain in the last 48 hours: some; snow: none'],
    ]);
    expect(answered({ do: 'loads', asked: 'occupant', loads: ['freezer'] }, { where: 'garage' })).toEqual([
      ['ask-before-power', { kind: 'note' }, 'freezer or second refrigerator: garage'],
    ]);
    expect(answered({ do: 'loads', asked: 'looked', loads: [] })[0]![2]).toBe('none');
  });
  it('answers nothing where the book asks otherwise', () => {
    const act: SiteAct = { do: 'arrival', there: 'adult', animals: 'none', recording: 'none', inView: [] };
    expect(doorAnswer({ stepKey: 'animals-secured', evidence: { kind: 'note', prompt: 'x' } }, act, {})).toBeNull();
    expect(doorAnswer({ stepKey: 'adult-present-or-vacant', evidence: { kind: 'choice', options: [] } }, act, {})).toBeNull();
    expect(doorAnswer({ stepKey: 'service-entrance', evidence: { kind: 'confirm' } }, act, {})).toBeNull();
  });
});
