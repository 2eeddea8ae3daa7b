// Agreement texts: which clauses belong into a job's agreement, what a text may not hold, where it goes against rules, its life, and two compared.
import { describe, expect, it } from 'vitest';
import { changesSomething, compareTexts } from '@backsight/domain/agreements/compareTexts';
import { accessWords, cancelWords, claimWords, lawFacts } from '@backsight/domain/agreements/lawWords';
import {
  NO_LIMITS,
  capCents,
  clausesFor,
  templateOf,
  type Cap,
  type Clause,
  type ClauseContext,
  type TextContent,
} from '@backsight/domain/agreements/text';
import { checkText } from '@backsight/domain/agreements/textChecks';
import { approveText, withdrawText, type ApproveCommand, type ApproveFacts } from '@backsight/domain/agreements/textLife';
import { textBreaks } from '@backsight/domain/agreements/textRules';
import type { Effect, RuleRow } from '@backsight/domain/shared/rulePack';
import { NO_RULES } from '@backsight/domain/jobs/deskRules';
import type { Applicability } from '@backsight/domain/shared/applicability';
import { AGREEMENT_TEXTS } from '../../../prisma/seed/starter/agreement.ts';
import { SERVICES } from '../../../prisma/seed/starter/services.ts';
import { STATE_PACKS } from '../../../prisma/seed/starter/statePacks.ts';

const clause = (key: string, more: Partial<Clause> = {}): Clause => ({
  ...{ key, title: key, body: `Words of ${key}.`, applies: { always: true }, client: 'anybody' },
  ...more,
});
const text = (clauses: Clause[], more: Partial<TextContent> = {}): TextContent => ({
  title: 'T',
  consentText: 'C',
  clauses,
  limits: NO_LIMITS,
  ...more,
});
const said = (outcome: { ok: true } | { ok: false; code: string }): string => (outcome.ok ? 'yes' : outcome.code);

describe('the clauses of a job', () => {
  const [inspection, reinspection] = AGREEMENT_TEXTS;
  const job = (more: Partial<ClauseContext> = {}): ClauseContext => ({
    ...{ facts: { features: ['deck'] }, services: ['inspection'], day: '2026-07-01', clientIsOwner: false },
    ...more,
  });
  const keys = (context: ClauseContext) => clausesFor(inspection!.clauses, context).map(({ key }) => key);
  it.each<[string, ClauseContext, string[]]>([
    ['a house without a pool, bought', job(), []],
    ['a pool that was ordered', job({ facts: { features: ['pool'] }, services: ['inspection', 'pool_spa'] }), ['pool_looked_at']],
    ['a pool that was not ordered', job({ facts: { features: ['pool'] } }), ['pool_left_out']],
    ['a house of which it is not known', job({ facts: {} }), ['pool_left_out']],
    ['a look before selling', job({ clientIsOwner: true }), ['owner_readers', 'owner_occupant']],
  ])('of %s', (_, context, expected) =>
    expect(keys(context).filter((key) => key.startsWith('pool') || key.startsWith('owner'))).toEqual(expected),
  );
  it('of a re-inspection are few and limited to the items', () => {
    expect(reinspection!.clauses.length).toBeLessThan(inspection!.clauses.length);
    expect(templateOf(reinspection!.clauses)).toMatch(/limited to these items[\s\S]*\{\{items\}\}/);
  });
  it('leave the time to claim of an owner unchanged', () => {
    expect(keys(job({ clientIsOwner: true }))).toContain('claim_window');
    expect(inspection!.clauses.find(({ key }) => key === 'owner_occupant')!.body).toContain('changes nothing in the time to bring a claim');
  });
  it('are numbered where they have a title', () =>
    expect(templateOf([clause('a', { title: '' }), clause('b'), clause('c', { title: '', body: ' ' }), clause('d')])).toBe(
      'Words of a.\n\n## 1. b\n\nWords of b.\n\n## 2. d\n\nWords of d.',
    ));
  it.each<[Cap, number, number | null]>([
    [{ kind: 'none' }, 45_000, null],
    [{ kind: 'amount', cents: 1_000_000 }, 45_000, 1_000_000],
    [{ kind: 'factor', tenths: 15 }, 45_000, 67_500],
    [{ kind: 'factor', tenths: 15 }, 45_001, 67_502],
    [{ kind: 'factor', tenths: 10 }, 0, 0],
  ])('a cap of %j on a fee of %i cents is %j', (cap, fee, expected) => expect(capCents(cap, fee)).toBe(expected));
});

describe('a text', () => {
  const services = SERVICES.map(({ key }) => key);
  it.each<[string, TextContent, string, string?]>([
    ['with known fields', text([clause('a', { body: 'Fee {{fee}} and {{ claim_window }}.' })]), 'yes'],
    ['without clauses', text([]), 'text-without-clauses', 'clauses'],
    ['with an unknown field', text([clause('a'), clause('b', { body: '{{freight}}' })]), 'text-field-unknown', 'clauses.1.body'],
    ['with the name of a method', text([clause('a', { body: '{{constructor}}' })]), 'text-field-unknown', 'clauses.0.body'],
    ['with an open brace', text([clause('a', { body: 'Fee {{fee' })]), 'text-field-open', 'clauses.0.body'],
    ['with an empty clause', text([clause('a', { body: ' \n ' })]), 'clause-empty', 'clauses.0.body'],
    ['with a field in a title', text([clause('a', { title: 'Fee {{fee}}' })]), 'clause-title-field', 'clauses.0.title'],
    ['with one key twice', text([clause('a'), clause('a')]), 'clause-key-twice', 'clauses.1.key'],
    [
      'with a rule about no fact',
      text([clause('a', { applies: { fact: 'moat' } as unknown as Applicability })]),
      'clause-rule-wrong',
      'clauses.0.applies',
    ],
    ['with a service that nobody offers', text([clause('a', { applies: { service: 'moat' } })]), 'clause-rule-wrong', 'clauses.0.applies'],
    [
      'that takes in the procedure book',
      text([clause('a', { body: 'We follow our procedures.' })]),
      'text-cites-own-book',
      'clauses.0.body',
    ],
    ['that says a cap it does not set', text([clause('a', { body: 'Up to {{liability_cap}}.' })]), 'limit-not-set', 'limits.cap'],
    [
      'that sets a cap and does not say it',
      text([clause('a')], { limits: { cap: { kind: 'amount', cents: 1 }, claimMonths: null } }),
      'limit-not-said',
      'limits.cap',
    ],
    [
      'that sets a time and does not say it',
      text([clause('a')], { limits: { cap: { kind: 'none' }, claimMonths: 12 } }),
      'limit-not-said',
      'limits.claimMonths',
    ],
  ])('%s: %s', (_, content, answer, field) => {
    const outcome = checkText(content, services);
    expect(said(outcome)).toBe(answer);
    if (!outcome.ok) expect(outcome.field).toBe(field);
  });
  it.each(AGREEMENT_TEXTS.map((one) => [one.kind, one] as const))(
    'of the starter set for an %s is sound, sets no limit and keeps within the rules of Wisconsin',
    (_, one) => {
      expect(said(checkText(one, services))).toBe('yes');
      expect(one.limits).toEqual(NO_LIMITS);
      expect(textBreaks(one, STATE_PACKS[0].rows)).toEqual([]);
    },
  );
});

describe('a text against rules of a state', () => {
  const row = (effect: Effect | null, more: Partial<RuleRow> = {}): RuleRow => ({
    ...{ key: 'r', topic: 'agreement', words: 'W.', citation: 'C', certainty: 'found', effect, fromDay: null, untilDay: null },
    ...more,
  });
  const capped = (cap: Cap) => text([clause('a', { body: '{{liability_cap}}' })], { limits: { cap, claimMonths: null } });
  const policy = row(null, { certainty: 'none' });
  it.each<[string, TextContent, RuleRow, boolean]>([
    ['a cap where caps are barred', capped({ kind: 'factor', tenths: 10 }), row({ kind: 'cap_barred' }), true],
    ['no cap where caps are barred', text([clause('a')]), row({ kind: 'cap_barred' }), false],
    ['a cap below the floor', capped({ kind: 'amount', cents: 999_999 }), row({ kind: 'cap_floor', cents: 1_000_000 }), true],
    ['a cap at the floor', capped({ kind: 'amount', cents: 1_000_000 }), row({ kind: 'cap_floor', cents: 1_000_000 }), false],
    ['a cap by the fee where there is a floor', capped({ kind: 'factor', tenths: 30 }), row({ kind: 'cap_floor', cents: 1_000_000 }), true],
    [
      'a time that is cut',
      text([clause('a', { body: '{{claim_limit}}' })], { limits: { cap: { kind: 'none' }, claimMonths: 12 } }),
      row({ kind: 'shorter_time_barred' }),
      true,
    ],
    ['no time that is cut', text([clause('a')]), row({ kind: 'shorter_time_barred' }), false],
    [
      'no cost where it must be said',
      text([clause('a', { body: '{{services}}' })]),
      row({ kind: 'written_first', fields: ['services', 'fee'] }),
      true,
    ],
    [
      'scope and cost',
      text([clause('a', { body: '{{services}} {{fee}}' })]),
      row({ kind: 'written_first', fields: ['services', 'fee'] }),
      false,
    ],
    ['no clause on conflicts', text([clause('a')]), row({ kind: 'clause_needed', clause: 'conflicts' }), true],
    ['a clause on conflicts', text([clause('conflicts')]), row({ kind: 'clause_needed', clause: 'conflicts' }), false],
    ['a law claimed for policy of the firm', text([clause('a', { body: 'Signing first is required by state law.' })]), policy, true],
    ['policy called policy', text([clause('a', { body: 'Signing first is our policy.' })]), policy, false],
    [
      'a law claimed where one was found',
      text([clause('a', { body: 'This is required by law. {{fee}}' })]),
      row({ kind: 'written_first', fields: ['fee'] }),
      false,
    ],
  ])('%s', (_, content, rule, breaks) => expect(textBreaks(content, [rule]).map(({ rowKey }) => rowKey)).toEqual(breaks ? ['r'] : []));
  it('names the row in the sentence', () =>
    expect(textBreaks(capped({ kind: 'amount', cents: 1 }), STATE_PACKS[4].rows)[0]).toEqual({
      rowKey: 'cap',
      sentence: expect.stringContaining('7198'),
    }));
});

describe('the life of a text', () => {
  const now = '2026-05-12T15:00:00Z';
  const facts = (more: Partial<ApproveFacts> = {}): ApproveFacts => ({
    ...{ text: { number: 2, state: 'draft', authorId: 'dolores' }, changesSomething: true, breaks: [], lockedChanged: [], now },
    ...more,
  });
  const by = (more: Partial<ApproveCommand> = {}): ApproveCommand => ({
    approverId: 'harriet',
    roles: ['owner'],
    inForceFrom: null,
    reason: null,
    review: null,
    ...more,
  });
  const review = { attorney: 'A. Counsel', on: '2026-05-11' };
  const breaks = [{ rowKey: 'cap', jurisdiction: 'US-CA', sentence: 's' }];
  it.each<[string, ApproveFacts, ApproveCommand, string]>([
    ['approved by another', facts(), by(), 'yes'],
    ['approved for later', facts(), by({ inForceFrom: '2026-06-01T05:00:00Z' }), 'yes'],
    ['approved for yesterday', facts(), by({ inForceFrom: '2026-05-11T05:00:00Z' }), 'text-from-past'],
    ['approved by its author', facts(), by({ approverId: 'dolores' }), 'agreement-text-second-person'],
    ['approved twice', facts({ text: { number: 2, state: 'approved', authorId: 'dolores' } }), by(), 'agreement-text-fixed'],
    ['approved though nothing changes', facts({ changesSomething: false }), by(), 'text-changes-nothing'],
    ['against a rule, without a reason', facts({ breaks }), by(), 'text-breaks-rules'],
    ['against a rule, with a word', facts({ breaks }), by({ reason: '  because ' }), 'text-breaks-rules'],
    [
      'against a rule, not by an owner',
      facts({ breaks }),
      by({ roles: ['office_manager'], reason: 'The attorney wants it so.' }),
      'text-breaks-rules',
    ],
    ['against a rule, by an owner who says why', facts({ breaks }), by({ reason: 'The attorney wants it so.' }), 'yes'],
    ['with locked words changed', facts({ lockedChanged: ['Disputes'] }), by(), 'clause-locked'],
    ['with locked words changed and reviewed anew', facts({ lockedChanged: ['Disputes'] }), by({ review }), 'yes'],
    [
      'with locked words changed, not by an owner',
      facts({ lockedChanged: ['x'] }),
      by({ review, roles: ['office_manager'] }),
      'clause-locked',
    ],
    ['reviewed, not by an owner', facts(), by({ review, roles: ['lead_inspector'] }), 'clause-locked'],
  ])('%s: %s', (_, f, c, answer) => expect(said(approveText(f, c))).toBe(answer));
  it.each<['draft' | 'approved' | 'withdrawn', boolean, number, string]>([
    ['approved', true, 1, 'yes'],
    ['approved', true, 0, 'last-agreement-text'],
    ['approved', false, 0, 'yes'],
    ['draft', false, 1, 'agreement-text-not-approved'],
    ['withdrawn', false, 1, 'agreement-text-not-approved'],
  ])('withdrawn while %s, in force %s, with %i others: %s', (state, inForce, others, answer) =>
    expect(said(withdrawText({ number: 1, state, authorId: null, inForce }, others))).toBe(answer),
  );
});

describe('two texts compared', () => {
  const before = text([clause('a'), clause('b'), clause('c'), clause('d')]);
  it('stay quiet when nothing differs', () => expect(changesSomething(compareTexts(before, before, {}))).toBe(false));
  it('say what came, went, moved and reads otherwise', () => {
    const after = text(
      [
        clause('d'),
        clause('a'),
        clause('b', { body: 'Other words of b.' }),
        clause('e', { applies: { fact: 'features', compare: 'includes', value: 'pool' } }),
      ],
      { limits: { cap: { kind: 'factor', tenths: 15 }, claimMonths: null } },
    );
    const { sentences, clauses } = compareTexts(before, after, {});
    expect(sentences).toEqual([
      'Limits were: no limit of liability; no time to claim of its own. They are: liability up to 1.5 times the fee; no time to claim of its own.',
    ]);
    expect(clauses.map(({ key, kind }) => [key, kind])).toEqual([
      ['d', 'changed'],
      ['b', 'changed'],
      ['e', 'added'],
      ['c', 'removed'],
    ]);
    expect(clauses[0]!.sentences).toEqual(['It has another place.']);
    expect(clauses[1]!.marks).toEqual([
      { mark: 'removed', text: 'Words ' },
      { mark: 'added', text: 'Other words ' },
      { mark: 'same', text: 'of b. ' },
    ]);
  });
});

describe('words of law and desk', () => {
  it('show every time that is argued, and that the longer one counts', () => {
    expect(claimWords([], 'Washington')).toBe('How long a claim may be brought is set by the law of Washington. Ask an attorney.');
    expect(claimWords([{ years: 4, from: 'inspected', source: 'S' }], 'X')).toContain(
      'limited to 4 years from the day of the inspection (S).',
    );
    const two = claimWords(
      [
        { years: 6, from: 'completed', source: 'B' },
        { years: 2, from: 'completed', source: 'A' },
      ],
      'Wisconsin',
    );
    expect(two).toContain('2 years from the completion of the inspection (A) and 6 years from the completion of the inspection (B)');
    expect(two).toContain('The longer one counts');
  });
  it('say what late cancelling, moving and a closed door cost', () => {
    const late = (more: object) => cancelWords({ ...NO_RULES, late: { hours: 24, movePercent: 0, cancelPercent: 50, ...more } });
    expect(late({})).toBe(
      'Cancelling the appointment costs nothing until 24 hours before it begins; after that 50% of the fee is charged. Moving the appointment costs nothing.',
    );
    expect(late({ cancelCents: 7_500, fullHours: 2 })).toContain('after that $75.00 is charged, and from 2 hours before on the whole fee.');
    expect(accessWords(NO_RULES)).toBe('Nothing is charged when the pair cannot get in.');
    expect(accessWords({ ...NO_RULES, endings: { ...NO_RULES.endings, nobody_came: 50, refused_at_the_door: 100 } })).toContain('100%');
  });
  it('compute the cap from the fee', () => {
    const facts = { state: 'X', rows: [], readings: [], desk: NO_RULES, feeCents: 45_000, items: ['Stoop', 'Flue'], firstJob: 1007 };
    const limits = { cap: { kind: 'factor', tenths: 15 } as const, claimMonths: 12 };
    expect(lawFacts({ ...facts, limits })).toMatchObject({
      liability_cap: '$675.00 (1.5 times the fee)',
      claim_limit: '12 months',
      items: '- Stoop\n- Flue',
      first_job: '1007',
      standard: '',
    });
    expect(lawFacts({ ...facts, limits: NO_LIMITS }).liability_cap).toBe('');
  });
});
