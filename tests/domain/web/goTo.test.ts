// The go-to box and what stands beside it, without a browser: what it offers in which order, where it leads, what it marks, what it remembers.
import { describe, expect, it } from 'vitest';
import { pieceAround, readTyped } from '@backsight/domain/shared/typed';
import { firstSteps, stepsShown } from '@backsight/domain/firm/firstSteps';
import { searchSaid } from '../../../apps/web/src/ui/searchSaid.ts';
import { choicesFor, hrefOf, keptChoices, pieces } from '../../../apps/web/src/app/goTo/choices.ts';
import { withPlace } from '../../../apps/web/src/api/phone/recent.ts';
import { zoneName, zonesDiffer } from '../../../apps/web/src/ui/zones.ts';

const item = (kind: 'job' | 'property', title: string) =>
  ({ kind, thing: { kind: 'job', id: title }, title, about: '', state: '', at: null }) as const;

describe('what was typed', () => {
  it.each([
    ['  Alder,14 ', ['alder', '14'], [14]],
    ['#1204 1204', ['1204'], [1204]],
    ['a b c d e f g', ['a', 'b', 'c', 'd', 'e'], []],
    ['99999999999 2147483648', ['99999999999', '2147483648'], []],
    ['', [], []],
  ])('"%s" is read as words, longest first, and numbers that can be one', (text, words, numbers) =>
    expect(readTyped(text)).toEqual({ words, numbers }),
  );
  it('is shown in the piece of a long text that holds it, and a text that does not begins at its beginning', () => {
    const long = `${'the stairs are steep and dark '.repeat(6)}and the freezer thawed. ${'More was said about the yard. '.repeat(4)}`;
    expect(pieceAround(long, ['freezer'])).toMatch(/^\.\.\. .*freezer thawed\..* \.\.\.$/);
    expect(pieceAround(long, ['attic'])).toMatch(/^the stairs are steep/);
    expect(pieceAround('The  freezer\nthawed', ['freezer'])).toBe('The freezer thawed');
    for (const text of [long, 'x'.repeat(500)]) expect(pieceAround(text, ['freezer']).length).toBeLessThan(120);
  });
  it('is told apart in what was found, whatever signs it holds', () => {
    expect(pieces('14 Alder Road', 'alder 14')).toEqual([
      { text: '14', typed: true },
      { text: ' ', typed: false },
      { text: 'Alder', typed: true },
      { text: ' Road', typed: false },
    ]);
    expect(pieces('A (b) c', '(b')).toEqual([
      { text: 'A ', typed: false },
      { text: '(b', typed: true },
      { text: ') c', typed: false },
    ]);
  });
});

describe('what is offered', () => {
  const titles = (typed: string, roles: Parameters<typeof choicesFor>[1]) =>
    choicesFor(typed, roles, [item('job', 'Job 7, 3 Week Lane')]).map(({ title }) => title);
  it('begins with a screen that is called so, and ends with one that only holds the words', () => {
    expect(titles('week', ['owner'])).toEqual(['Week', 'Job 7, 3 Week Lane']);
    expect(titles('weather', ['owner'])).toEqual(['Job 7, 3 Week Lane', 'Bad weather']);
  });
  it('holds no screen that the role may not use', () => expect(titles('ledger', ['inspector'])).toEqual(['Job 7, 3 Week Lane']));
  it('holds the searches that one keeps, by a part of their name', () => {
    const kept = (id: string, name: string) => ({ id, list: '/jobs' as const, name, search: '?open=true' });
    const choices = (typed: string) => keptChoices(typed, [kept('a', 'To chase'), kept('b', 'Radon')]);
    expect(choices('CHASE')).toMatchObject([{ href: '/jobs?open=true', title: 'To chase', about: 'Jobs' }]);
    expect(choices('').map(({ title }) => title)).toEqual(['To chase', 'Radon']);
    expect(choices('radar')).toEqual([]);
    expect(searchSaid('?state=booked&cursor=x&open=true')).toBe(searchSaid('?open=true&before=7&state=booked'));
    expect(searchSaid('?cursor=x')).toBe('');
  });
  it('leads to the thing, or to the list of jobs by its words', () => {
    expect(hrefOf({ kind: 'jobs', id: '14 Alder Road' })).toBe('/jobs?q=14%20Alder%20Road');
    expect(hrefOf({ kind: 'step', id: 'p1', of: 'trip' })).toBe('/procedures/p1#step-trip');
    expect(hrefOf({ kind: 'callback', id: 'c1' })).toBe('/callbacks/c1');
  });
});

describe('what is remembered', () => {
  const place = (path: string, title = path) => ({ personId: 'p', path, title });
  const jobs = Array.from({ length: 9 }, (_, n) => place(`/jobs/0000000${n}-0000-7000-8000-000000000000`));
  it('is each thing once, the newest first, eight of them; never a list or a failure', () => {
    const list = jobs.reduce((before, now) => withPlace(before, now), [] as ReturnType<typeof withPlace>);
    expect(list.map(({ path }) => path.slice(6, 14))).toEqual([8, 7, 6, 5, 4, 3, 2, 1].map((n) => `0000000${n}`));
    expect(withPlace(list, { ...jobs[4]!, title: 'Job 4' }).map(({ title }) => title.slice(0, 5))[0]).toBe('Job 4');
    expect(withPlace(list, { ...jobs[4]!, title: 'Job 4' })).toHaveLength(8);
    for (const other of [place('/jobs'), place(jobs[0]!.path, 'Not here')]) expect(withPlace(list, other)).toEqual(list);
  });
});

describe('the zone of the firm', () => {
  const now = Date.UTC(2026, 0, 15);
  it.each([
    ['America/Chicago', 'America/Menominee', false],
    ['America/Chicago', 'Europe/Berlin', true],
    ['America/Denver', 'America/Phoenix', true], // alike in winter alone
  ])('%s beside %s', (a, b, differ) => expect(zonesDiffer(a, b, now)).toBe(differ));
  it('is named as people say it', () => expect(zoneName('America/Chicago', now)).toBe('Central Time'));
});

describe('the first steps of a firm', () => {
  const none = {
    inspectors: 0,
    unlicensed: [],
    withoutHours: [],
    withoutSize: [],
    kitMissing: ['ladder'],
    leads: 0,
    policies: 0,
    reviewed: false,
    onCall: false,
    withoutFactor: ['Olive'],
    mailSent: false,
    booked: false,
  };
  const done = (more: object) => firstSteps({ ...none, ...more }).flatMap(({ key, done: is }) => (is ? [key] : []));
  it('are open for a firm of nobody, ticked one by one by what stands in the records, the last never', () => {
    expect(done({})).toEqual([]);
    expect(done({ inspectors: 1 })).toEqual(['licenses', 'hours', 'sizes']);
    expect(done({ inspectors: 2, unlicensed: ['Una'] })).toEqual(['inspectors', 'hours', 'sizes']);
    const all = {
      inspectors: 2,
      kitMissing: [],
      leads: 1,
      policies: 1,
      reviewed: true,
      onCall: true,
      withoutFactor: [],
      mailSent: true,
      booked: true,
    };
    expect(done(all)).toEqual([
      'inspectors',
      'licenses',
      'hours',
      'sizes',
      'kit',
      'lead',
      'text',
      'policy',
      'onCall',
      'secondFactor',
      'mail',
      'book',
    ]);
    const shown = (of: object, signed: boolean, left: string[] = []) =>
      stepsShown(firstSteps({ ...none, ...of }), { signed, left }).map(({ key }) => key);
    expect(shown(all, false)).toHaveLength(13);
    expect(shown(all, true)).toEqual([]);
    expect(shown({ ...all, policies: 0, leads: 0 }, true, ['text'])).toEqual(['policy', 'onCall', 'secondFactor', 'mail']);
    expect(shown({ ...all, policies: 0 }, true, ['policy'])).toEqual([]);
  });
});
