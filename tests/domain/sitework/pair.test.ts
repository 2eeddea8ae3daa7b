// The independent second look, which entries count, what misses before the seal, and when a visit may start.
import { describe, expect, it } from 'vitest';
import type { Evidence } from '@backsight/domain/procedures/step';
import { canonicalText } from '@backsight/domain/sitework/canonical';
import type { EndedAs } from '@backsight/domain/sitework/endedAs';
import { comparePlaces, withheldFrom } from '@backsight/domain/sitework/partner';
import { draftReport, mayHandOver, reportText, type HandOverFacts, type ReportSource } from '@backsight/domain/sitework/report';
import { missingToSeal, type SealFacts } from '@backsight/domain/sitework/seal';
import { standingEntries } from '@backsight/domain/sitework/standing';
import { jobStarted, jobVisited, mayStart, systemsOf, type StartFacts } from '@backsight/domain/sitework/visit';
import type { EntryEvidence, KnownEntry } from '@backsight/domain/sitework/value';
import { anAct, anEntry, NOON } from './parts.ts';

const check = { stepKey: 'c', itemId: null };
const early = { outcome: 'ended_before', evidence: null } as const;
const closed = { outcome: 'could_not', evidence: null, filled: true } as const;

describe("the partner's answer", () => {
  const ann = anEntry('c', 'ann');
  it.each<[string, string, KnownEntry[], string[]]>([
    ['is hidden from one who has recorded nothing there', 'ben', [ann], [ann.id]],
    ['also in its corrected form', 'ben', [ann, anEntry('c', 'ann', { id: 'new', supersedesId: ann.id })], [ann.id, 'new']],
    ['is shown once both are in', 'ben', [ann, anEntry('c', 'ben')], []],
    ["is one's own to see", 'ann', [ann], []],
    ['at another item is hidden by itself', 'ben', [anEntry('c', 'ann', { id: 'x', itemId: 'i' }), anEntry('c', 'ben')], []],
    ['at a step that is not checked is shown', 'ben', [anEntry('other', 'ann')], []],
  ])('%s', (_, viewer, entries, hidden) => {
    expect(withheldFrom(viewer, [check], entries, null).map(({ id }) => id)).toEqual(hidden);
  });
  const forBen = anEntry('c', 'ben', closed);
  it.each<[string, KnownEntry[], EndedAs | null, string[]]>([
    ['is hidden where danger closed the step before one looked', [ann, forBen], null, [ann.id]],
    ['also once the visit was done to the end, which still waits for the own word', [ann, forBen], 'complete', [ann.id]],
    ['is shown once one has looked there after all', [ann, forBen, anEntry('c', 'ben', { supersedesId: forBen.id })], null, []],
    ['is shown where the visit ended early after the danger', [ann, forBen], 'stopped_for_safety', []],
    ['is shown where the visit ended before one could look', [ann, anEntry('c', 'ben', early)], 'stopped_by_client', []],
    ['is nothing to hide where danger closed the step for both', [anEntry('c', 'ann', closed), forBen], null, []],
  ])('%s', (_, entries, endedAs, hidden) => {
    expect(withheldFrom('ben', [check], entries, endedAs).map(({ id }) => id)).toEqual(hidden);
  });
  it('at one item does not open another', () => {
    const places = [
      { stepKey: 'c', itemId: 'i' },
      { stepKey: 'c', itemId: 'j' },
    ];
    expect(
      withheldFrom('ben', places, [anEntry('c', 'ann', { id: 'x', itemId: 'i' }), anEntry('c', 'ben', { itemId: 'j' })], null).map(
        ({ id }) => id,
      ),
    ).toEqual(['x']);
  });
});

describe('comparing', () => {
  const both = (asked: Evidence, a: EntryEvidence | null, b: EntryEvidence | null, more: Partial<KnownEntry> = {}) =>
    comparePlaces(
      [{ ...check, evidence: asked }],
      ['ann', 'ben'],
      [anEntry('c', 'ann', { evidence: a }), anEntry('c', 'ben', { evidence: b, ...more })],
      null,
    )[0]?.result;
  const reading = (value: number): EntryEvidence => ({ kind: 'reading', value, unit: 'F' });
  const bounded: Evidence = { kind: 'reading', unit: 'F', expectedFrom: 10, expectedTo: 20 };
  it.each<[string, Evidence, EntryEvidence, EntryEvidence, string]>([
    ['two confirmations agree', { kind: 'confirm' }, { kind: 'confirm' }, { kind: 'confirm' }, 'agree'],
    ['readings on the same side of the range agree', bounded, reading(11), reading(19), 'agree'],
    ['one inside and one outside differ', bounded, reading(11), reading(21), 'differ'],
    ['below and above differ', bounded, reading(1), reading(90), 'differ'],
    ['without a range within a tenth', { kind: 'reading', unit: 'F' }, reading(100), reading(91), 'agree'],
    ['without a range beyond a tenth', { kind: 'reading', unit: 'F' }, reading(100), reading(89), 'differ'],
    ['counts must be equal', { kind: 'count', of: 'x' }, { kind: 'count', count: 4 }, { kind: 'count', count: 5 }, 'differ'],
    ['the same choice', { kind: 'choice', options: [] }, { kind: 'choice', option: 'a' }, { kind: 'choice', option: 'a' }, 'agree'],
    ['words are for people to compare', { kind: 'note', prompt: '' }, { kind: 'note' }, { kind: 'note' }, 'not_compared'],
  ])('%s', (_, asked, a, b, result) => {
    expect(both(asked, a, b)).toBe(result);
  });
  it('sees that one could not inspect', () =>
    expect(both({ kind: 'confirm' }, { kind: 'confirm' }, null, { outcome: 'could_not' })).toBe('differ'));
  it('waits for the second', () =>
    expect(comparePlaces([{ ...check, evidence: { kind: 'confirm' } }], ['ann', 'ben'], [anEntry('c', 'ann')], null)).toEqual([]));
  it.each<[string, Partial<KnownEntry>[], Partial<KnownEntry>[], string | undefined]>([
    ['one look, where the visit ended before the second', [{}], [early], 'one_look'],
    ['one look, whoever of the pair made it', [early], [{}], 'one_look'],
    ['one look, where one could not and the other was not reached', [{ outcome: 'could_not', evidence: null }], [early], 'one_look'],
    ['two, where the second came in after all', [{}], [early, {}], 'agree'],
    ['none, where the visit ended before both', [early], [early], undefined],
    ['none, where danger closed the step for both', [closed], [closed], undefined],
    ['one that waits for the second, where danger closed the step and the visit goes on', [{}], [closed], undefined],
    ['one look, where danger closed the step and then the visit ended', [{}], [closed, early], 'one_look'],
  ])('what the service filled in is no look: %s', (_, ann, ben, result) => {
    const entries = [...ann.map((one) => anEntry('c', 'ann', one)), ...ben.map((one) => anEntry('c', 'ben', one))];
    expect(comparePlaces([{ ...check, evidence: { kind: 'confirm' } }], ['ann', 'ben'], entries, null)[0]?.result).toBe(result);
  });
  it.each<[string, EndedAs | null, string | undefined]>([
    ['waits for the second while the visit goes on', null, undefined],
    ['waits for the second after a visit that was done to the end', 'complete', undefined],
    ['is one look where the visit ended early', 'stopped_for_safety', 'one_look'],
  ])('an answer that came in after danger had closed the step for both %s', (_, endedAs, result) => {
    const entries = [anEntry('c', 'ann', closed), anEntry('c', 'ben', closed), anEntry('c', 'ann')];
    expect(comparePlaces([{ ...check, evidence: { kind: 'confirm' } }], ['ann', 'ben'], entries, endedAs)[0]?.result).toBe(result);
  });
  it('uses what was corrected', () => {
    const first = anEntry('c', 'ann', { evidence: { kind: 'count', count: 3 } });
    const entries = [
      first,
      anEntry('c', 'ben', { evidence: { kind: 'count', count: 4 } }),
      anEntry('c', 'ann', { evidence: { kind: 'count', count: 4 }, supersedesId: first.id }),
    ];
    expect(comparePlaces([{ ...check, evidence: { kind: 'count', of: 'x' } }], ['ann', 'ben'], entries, null)[0]?.result).toBe('agree');
  });
});

describe('entries that count', () => {
  it('are the newest of each person, without those replaced', () => {
    const [a, b, c] = [anEntry('s', 'ann'), anEntry('s', 'ann'), anEntry('s', 'ben')];
    expect(standingEntries([b, a, c]).map(({ id }) => id)).toEqual([b.id, c.id]);
    const fixed = anEntry('s', 'ann', { supersedesId: b.id });
    expect(standingEntries([a, b, c, fixed]).map(({ id }) => id)).toEqual([c.id, fixed.id]);
  });
  it('are what was looked at by either, before what a stop filled in', () => {
    const filled = anEntry('s', 'ann', { outcome: 'could_not', evidence: null, filled: true });
    const real = anEntry('s', 'ben');
    expect(standingEntries([real, filled]).map(({ id }) => id)).toEqual([real.id]);
    expect(standingEntries([filled]).map(({ id }) => id)).toEqual([filled.id]);
  });
  it('are what was looked at, also when it comes after the visit was ended', () => {
    const real = anEntry('s', 'ann');
    const filled = anEntry('s', 'ann', { outcome: 'ended_before', evidence: null });
    expect(standingEntries([real, filled]).map(({ id }) => id)).toEqual([real.id]);
  });
});

describe('an ending in the millisecond of the danger', () => {
  const at = (id: string) => ({ id, order: `2026-05-12T17:00:00.000Z/0000000000/${id}` });
  it.each([
    ['a', 'b'],
    ['b', 'a'],
  ])('counts before it, whichever id is higher (%s, %s)', (danger, end) => {
    const entries = [anEntry('c', 'ann'), anEntry('c', 'ben', { ...closed, ...at(danger) }), anEntry('c', 'ben', { ...early, ...at(end) })];
    expect(standingEntries(entries).map(({ id }) => id)).toEqual([entries[0]!.id, end]);
    expect(comparePlaces([{ ...check, evidence: { kind: 'confirm' } }], ['ann', 'ben'], entries, null)[0]?.result).toBe('one_look');
  });
});

describe('before the seal', () => {
  const places = [
    { stepKey: 's', itemId: null, partnerCheck: false },
    { stepKey: 'c', itemId: null, partnerCheck: true },
  ];
  const signed = [anAct({ do: 'signed_off', from: NOON, until: NOON }, 'ann'), anAct({ do: 'signed_off', from: NOON, until: NOON }, 'ben')];
  const nothing = { entries: [], acts: signed, written: [], differing: [], photosToCome: [] };
  const facts = (more: Partial<SealFacts>): SealFacts => ({ places, ...nothing, pair: ['ann', 'ben'], endedAs: 'complete', ...more });
  const change = anAct({ do: 'changed', thing: 'valve' }, 'ann', { where: 'tub' });
  const inside = anAct({ do: 'went_in', place: 'attic', backBy: NOON }, 'ben');
  const told = anAct({ do: 'told', of: [change.id] }, 'ann', { client: 'Paula Prior', office: 'Olga' });
  const differing = [{ stepKey: 'c', itemId: null }];
  const settled = anAct({ do: 'settled', stepKey: 'c', item: null }, 'ben', { note: 'looked again' });
  const whole = [anEntry('s', 'ann'), anEntry('c', 'ann'), anEntry('c', 'ben')];
  it.each<[string, Partial<SealFacts>, string[]]>([
    ['nothing misses', { entries: whole }, []],
    ['the ending', { entries: whole, endedAs: null }, ['ending']],
    ['a step', { entries: whole.slice(1) }, ['entry']],
    ["the partner's own answer", { entries: whole.slice(0, 2) }, ['member', 'entry']],
    ['a member of whom nothing came', { places: places.slice(0, 1), entries: whole.slice(0, 1) }, ['member']],
    ['a sign-off', { entries: whole, acts: signed.slice(0, 1) }, ['sign_off']],
    ['a new sign-off after a later entry', { entries: whole, written: [{ writtenBy: 'ann', order: '999999' }] }, ['sign_off']],
    ['no sign-off of a visit that was stopped', { entries: whole, acts: [], endedAs: 'stopped_for_safety' }, []],
    ['what was changed and not put back', { entries: whole, acts: [...signed, change] }, ['not_restored']],
    ['nothing more once client and office were told', { entries: whole, acts: [...signed, change, told] }, []],
    ['a photo on its way', { entries: whole, photosToCome: [{ id: 'p', by: 'ann' }] }, ['photo']],
    ['somebody who is still inside', { entries: whole, acts: [...signed, inside] }, ['inside']],
    ['a disagreement', { entries: whole, differing }, ['disagreement']],
    ['no disagreement that was settled', { entries: whole, differing, acts: [...signed, settled] }, []],
    ['no second look of a visit that ended early', { entries: whole.slice(0, 2), endedAs: 'stopped_for_safety' }, []],
    ['the second look of a visit that goes on', { entries: whole.slice(0, 2), endedAs: null }, ['ending', 'entry']],
    [
      'one look, not two, at what an early end left without a word',
      { entries: whole.slice(0, 1), endedAs: 'stopped_by_client' },
      ['entry'],
    ],
    ['not where nobody got in', { places: places.slice(0, 1), entries: whole.slice(0, 1), endedAs: 'nobody_came' }, []],
  ])('%s', (_, more, kinds) => {
    expect(missingToSeal(facts(more)).map(({ kind }) => kind)).toEqual(kinds);
  });
});

describe('starting', () => {
  const facts = (more: Partial<StartFacts> = {}): StartFacts => ({
    visitState: 'booked',
    recordOpen: false,
    gate: { missing: [], sentences: [] },
    overridden: [],
    unacknowledged: [],
    ...more,
  });
  const shut = { missing: ['agreement-unsigned'], sentences: ['Not signed yet.'] };
  it.each<[string, Partial<StartFacts>, object]>([
    ['an open gate', {}, { ok: true, value: { despiteGate: false } }],
    ['a closed one', { gate: shut }, { code: 'gate-closed' }],
    ['let pass', { gate: shut, overridden: ['agreement-unsigned'] }, { ok: true, value: { despiteGate: true } }],
    [
      'let pass in part',
      { gate: { missing: ['agreement-unsigned', 'fee-unpaid'], sentences: [] }, overridden: ['fee-unpaid'] },
      { code: 'gate-closed', about: { missing: ['agreement-unsigned'] } },
    ],
    ['acknowledged at the start', { gate: { missing: ['acknowledgement'], sentences: [] } }, { ok: true }],
    ['not acknowledged', { unacknowledged: [{ person: 'Ann', title: 'Electrical' }] }, { code: 'acknowledgement-first' }],
    ['a second start', { recordOpen: true }, { code: 'record-already-open' }],
    ['a cancelled visit', { visitState: 'cancelled' }, { code: 'visit-not-booked' }],
  ])('%s', (_, more, wanted) => {
    expect(mayStart(facts(more))).toMatchObject(wanted);
  });
  it('moves a job on, never back', () => {
    expect([jobStarted('booked'), jobStarted('visited'), jobVisited('on_site'), jobVisited('reported')]).toEqual([
      'on_site',
      'visited',
      'visited',
      'reported',
    ]);
  });
  it('takes the whole book to an inspection, and the chosen systems to another visit', () => {
    expect([systemsOf('inspection', ['roof']), systemsOf('callback_visit', ['roof'])]).toEqual([null, ['arrival', 'leaving', 'roof']]);
  });
});

describe('the report', () => {
  const source = (more: Partial<ReportSource>): ReportSource => ({
    stepKey: 's',
    itemId: null,
    title: 'Service',
    item: null,
    system: 'electrical',
    procedure: 'Electrical',
    outcome: 'done',
    answer: '100 A',
    match: 'not_asked',
    note: null,
    spoken: false,
    ...more,
  });
  const entries = [
    source({}),
    source({
      stepKey: 'p',
      title: 'Panel',
      item: 'panel 1',
      outcome: 'could_not',
      answer: 'could not be inspected: locked or sealed',
      note: 'padlock',
    }),
    source({ system: 'leaving', procedure: 'Leaving', title: 'Locked' }),
  ];
  it("names defects first, what was not inspected and why, and leaves the firm's own steps out", () => {
    const body = draftReport(entries, [{ stepKey: 's', itemId: null, text: 'Too small.' }]);
    expect(body).toEqual({
      summary: [{ system: 'Electrical', text: 'Too small.' }],
      systems: [{ system: 'Electrical', lines: [{ title: 'Service', item: null, answer: '100 A', note: null }] }],
      notInspected: [{ system: 'Electrical', title: 'Panel', item: 'panel 1', why: 'could not be inspected: locked or sealed (padlock)' }],
    });
    expect(reportText(body, ['Head'])).toMatch(
      /^Head\n\nSUMMARY OF DEFECTS\n- Electrical: Too small\.\n[\s\S]*NOT INSPECTED, AND WHY\n- Panel \(panel 1\)/,
    );
  });
  const facts = (more: Partial<HandOverFacts> = {}): HandOverFacts => ({
    sealed: true,
    signed: true,
    paid: true,
    payLater: false,
    recipient: { name: 'Paula', isClient: true, consent: false },
    ...more,
  });
  it.each<[string, Partial<HandOverFacts>, object]>([
    ['to the client', {}, { ok: true }],
    ['not unsigned', { signed: false }, { code: 'report-not-ready', about: { missing: ['the agreement is signed'] } }],
    ['not unpaid', { paid: false }, { code: 'report-not-ready' }],
    ['billed to closing', { paid: false, payLater: true }, { ok: true }],
    ['not unsealed', { sealed: false }, { code: 'report-not-ready' }],
    ['to another without consent', { recipient: { name: 'Arno', isClient: false, consent: false } }, { code: 'report-recipient' }],
    [
      'unsigned and unpaid where both were let pass',
      { signed: false, paid: false, letPass: ['agreement-unsigned', 'fee-unpaid'] },
      { ok: true },
    ],
    ['never without the seal', { sealed: false, letPass: ['record-unsealed'] }, { code: 'report-not-ready' }],
    ['to another with consent', { recipient: { name: 'Arno', isClient: false, consent: true } }, { ok: true }],
  ])('leaves: %s', (_, more, wanted) => {
    expect(mayHandOver(facts(more))).toMatchObject(wanted);
  });
});

describe('the text under a seal', () => {
  it('is the same whatever the order of keys, and another when anything changes', () => {
    expect(canonicalText({ b: 1, a: [{ d: 2, c: undefined }] })).toBe('{"a":[{"d":2}],"b":1}');
    expect(canonicalText({ a: 1 })).not.toBe(canonicalText({ a: '1' }));
  });
});
