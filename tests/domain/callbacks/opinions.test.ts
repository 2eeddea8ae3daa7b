// Rules about opinions as tables: kinds of error, who confirms a conclusion, what may count on it, accounts of the pair.
import { describe, expect, it } from 'vitest';
import { mayAsk, mayGive, mayReadAccounts } from '@backsight/domain/callbacks/account';
import { ERROR_KINDS, GUIDANCE } from '@backsight/domain/callbacks/causes';
import { decideConclusion, decideConfirmation, mayCountOn } from '@backsight/domain/callbacks/conclusion';
import { CAUSES } from '@backsight/domain/callbacks/words';
import type { Outcome } from '@backsight/domain/shared/outcome';

const said = (outcome: Outcome<unknown>): string => (outcome.ok ? 'yes' : outcome.code);

describe('a conclusion', () => {
  const facts = { steps: [{ stepKey: 'a', revisionId: 'r1' }], entries: [], onTheJob: false, permissionId: null as string | null };
  const on = { ...facts, permissionId: 'p' };
  it.each([
    [facts, { cause: 'skipped', stepKey: 'a', errorKind: 'lapse' }, 'error-kinds-off'],
    [on, { cause: 'skipped', stepKey: 'a', errorKind: 'lapse' }, 'yes'],
    [on, { cause: 'nothing_shown', errorKind: 'slip' }, 'error-kind-of-a-step'],
    [on, { cause: 'not_accessible', errorKind: 'hidden' }, 'yes'],
    [on, { cause: 'not_in_procedure', errorKind: 'procedure_gap' }, 'yes'],
    [facts, { cause: 'arose_later', circumstances: ['weather'] }, 'yes'],
    [facts, { cause: 'arose_later', circumstances: ['other'] }, 'circumstance-needs-words'],
    [facts, { cause: 'arose_later', circumstances: ['other'], words: 'A dog in the garage.' }, 'yes'],
  ] as const)('%#: %j', (known, command, answer) => expect(said(decideConclusion(known, command))).toBe(answer));
  it('needs another behind it when whoever concludes was on the job, and names the permission of an error kind', () => {
    const made = (onTheJob: boolean) => decideConclusion({ ...on, onTheJob }, { cause: 'skipped', stepKey: 'a', errorKind: 'slip' });
    expect(made(true)).toMatchObject({ value: { needsConfirmation: true, permissionId: 'p' } });
    expect(made(false)).toMatchObject({ value: { needsConfirmation: false }, warnings: [] });
    expect(decideConclusion(on, { cause: 'skipped', stepKey: 'a' })).toMatchObject({ value: { errorKind: null, permissionId: null } });
  });
  it('has guidance for every cause, and the five kinds of the literature with four forms of violation beside two that are no error', () => {
    expect(Object.keys(GUIDANCE)).toEqual(Object.keys(CAUSES));
    expect(Object.values(GUIDANCE).every(({ means, when }) => means.endsWith('.') && when.endsWith('.'))).toBe(true);
    // Human-error literature, 1990 (from memory): slip, lapse, two mistakes, violation in four forms; the last two are trade fit, common practice.
    expect(Object.keys(ERROR_KINDS).filter((kind) => kind.startsWith('violation'))).toHaveLength(4);
    expect(Object.keys(ERROR_KINDS)).toHaveLength(10);
  });
});

describe('a confirmation', () => {
  const newest = { id: 'c', actorId: 'ann', needsConfirmation: true, confirmedAt: null };
  const facts = { newest, actor: 'bob', isOwner: false, onTheJob: false, others: 1 };
  const person = { conclusionId: 'c', way: 'person' } as const;
  const outside = { conclusionId: 'c', way: 'outside', words: 'Looked at by a colleague in Port Ansel' } as const;
  it.each([
    [facts, person, 'yes'],
    [{ ...facts, actor: 'ann' }, person, 'own-conclusion'],
    [{ ...facts, onTheJob: true }, person, 'confirmer-on-the-job'],
    [{ ...facts, newest: { ...newest, confirmedAt: 'now' } }, person, 'confirmed-already'],
    [{ ...facts, newest: { ...newest, needsConfirmation: false } }, person, 'confirmation-not-needed'],
    [{ ...facts, newest: { ...newest, id: 'd' } }, person, 'conclusion-superseded'],
    [{ ...facts, isOwner: true }, outside, 'somebody-else-confirms'],
    [{ ...facts, others: 0 }, outside, 'not-allowed'],
    [{ ...facts, isOwner: true, others: 0 }, { ...outside, words: 'short' }, 'outside-needs-words'],
    [{ ...facts, isOwner: true, others: 0, actor: 'ann', onTheJob: true }, outside, 'yes'],
  ])('%#', (known, command, answer) => expect(said(decideConfirmation(known, command))).toBe(answer));
  it.each([
    [undefined, 'yes'],
    [newest, 'conclusion-unconfirmed'],
    [{ ...newest, confirmedAt: 'now' }, 'yes'],
    [{ ...newest, needsConfirmation: false }, 'yes'],
  ])('what counts on it %#', (known, answer) => expect(said(mayCountOn(known))).toBe(answer));
});

describe('accounts', () => {
  const ask = { state: 'looking_into', onTheJob: true, askedAlready: false, name: 'Ann' } as const;
  it.each([
    [ask, 'yes'],
    [{ ...ask, onTheJob: false }, 'account-not-on-the-job'],
    [{ ...ask, askedAlready: true }, 'account-asked-already'],
    [{ ...ask, state: 'closed' }, 'callback-state'],
  ] as const)('asking %#', (facts, answer) => expect(said(mayAsk(facts))).toBe(answer));
  it.each([
    [{ asked: true, given: 0 }, false, 'yes'],
    [{ asked: false, given: 0 }, false, 'account-not-asked'],
    [{ asked: true, given: 1 }, false, 'account-given-already'],
    [{ asked: true, given: 1 }, true, 'yes'],
    [{ asked: true, given: 0 }, true, 'account-none-yet'],
  ])('giving %#', (facts, further, answer) => expect(said(mayGive(facts, further))).toBe(answer));
  it('are read by whoever judges, but by one of the pair only after the own one', () => {
    const of = (given: number) => [
      { personId: 'ann', given },
      { personId: 'bob', given: 1 },
    ];
    expect([mayReadAccounts('lead', of(0)), mayReadAccounts('ann', of(0)), mayReadAccounts('ann', of(1))]).toEqual([true, false, true]);
  });
});
