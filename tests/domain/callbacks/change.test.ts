// What is changed because of callbacks, and the same gap elsewhere: rules as tables.
import { describe, expect, it } from 'vitest';
import {
  decideAction,
  decideReview,
  mayFinish,
  mayLink,
  namesNoCase,
  planAction,
  recurs,
  type FinishCommand,
  type FinishFacts,
} from '@backsight/domain/callbacks/action';
import { decideTelling, gapsAt, type Place, type TellCommand, type TellFacts } from '@backsight/domain/callbacks/elsewhere';
import type { Outcome } from '@backsight/domain/shared/outcome';

const said = (outcome: Outcome<unknown>): string => (outcome.ok ? 'yes' : outcome.code);
const today = '2026-05-12';

describe('a corrective action', () => {
  const plan = {
    kind: 'training' as const,
    dueOn: today as string | null,
    reviewOn: null as string | null,
    reviewerId: null as string | null,
  };
  it.each([
    { name: 'due today', more: {}, is: 'yes' },
    { name: 'without a conclusion', asked: 2, more: {}, is: 'no-callback-for-action' },
    { name: 'from nothing', asked: 0, more: {}, is: 'no-callback-for-action' },
    { name: 'due yesterday', more: { dueOn: '2026-05-11' }, is: 'due-day-past' },
    { name: 'due never', more: { dueOn: null }, is: 'due-day-missing' },
    { name: 'that changes nothing, due never', more: { kind: 'none' as const, dueOn: null }, is: 'yes' },
    { name: 'reviewed by nobody', more: { reviewOn: '2026-08-01' }, is: 'review-half-planned' },
    { name: 'reviewed some time', more: { reviewerId: 'p' }, is: 'review-half-planned' },
    { name: 'reviewed before it is due', more: { dueOn: '2026-06-01', reviewOn: '2026-05-31', reviewerId: 'p' }, is: 'review-before-due' },
    { name: 'reviewed later', more: { dueOn: '2026-06-01', reviewOn: '2026-06-01', reviewerId: 'p' }, is: 'yes' },
  ])('$name: $is', ({ asked = 1, more, is }) => {
    expect(said(decideAction({ concluded: Math.min(asked, 1), asked, today }, { ...plan, ...more }))).toBe(is);
    if (asked === 1) expect(said(planAction(today, { ...plan, ...more }))).toBe(is);
  });

  it.each([
    { text: 'Count every live receptacle before the trip', is: 'yes' },
    { text: 'After the call from 214 alder lane, count', is: 'text-names-case' },
    { text: 'Paula PRIOR lost her food', is: 'text-names-case' },
    { text: 'The food of Mrs. Prior was lost', is: 'text-names-case' },
    { text: 'Count prior to the trip', is: 'yes' },
    { text: 'The Priorities stay', is: 'yes' },
    { text: 'The loss was $386.40', is: 'text-names-case' },
    { text: 'The loss was 386 dollars', is: 'text-names-case' },
  ])('names no case: $text ($is)', ({ text, is }) => {
    expect(said(namesNoCase(text, { names: ['Paula Prior', ''], addresses: ['214 Alder Lane'] }, 'why'))).toBe(is);
  });

  it('is linked to a revision that still may come', () => {
    expect([
      said(mayLink({ kind: 'revision', state: 'open' })),
      said(mayLink({ kind: 'revision', state: 'open' }, { number: 2, state: 'approved' })),
      said(mayLink({ kind: 'revision', state: 'open' }, { number: 2, state: 'withdrawn' })),
      said(mayLink({ kind: 'kit', state: 'open' })),
      said(mayLink({ kind: 'revision', state: 'done' })),
    ]).toEqual(['yes', 'yes', 'revision-withdrawn', 'action-takes-no-revision', 'action-closed']);
  });

  const open: FinishFacts = { kind: 'training', state: 'open', revisionInForce: false, reopened: false, decidedOn: '2026-05-01', today };
  const end: FinishCommand = { outcome: 'done', what: 'Shown at the table', doneOn: '2026-05-10', attendees: ['p'], kit: '' };
  it.each<{ name: string; facts?: Partial<FinishFacts>; command?: Partial<FinishCommand>; is: string }>([
    { name: 'training with who attended', is: 'yes' },
    { name: 'training without what', command: { what: '  ' }, is: 'action-without-what' },
    { name: 'training of nobody', command: { attendees: [] }, is: 'training-without-people' },
    { name: 'done tomorrow', command: { doneOn: '2026-05-13' }, is: 'done-day-ahead' },
    { name: 'done before it was decided', command: { doneOn: '2026-04-30' }, is: 'done-before-decided' },
    { name: 'kit without which', facts: { kind: 'kit' }, is: 'kit-without-which' },
    { name: 'kit', facts: { kind: 'kit' }, command: { kit: 'a tester for each pair' }, is: 'yes' },
    { name: 'revision by hand', facts: { kind: 'revision' }, is: 'action-waits-for-revision' },
    { name: 'revision in force', facts: { kind: 'revision', revisionInForce: true }, command: { what: '' }, is: 'yes' },
    { name: 'reopened revision that stands, with why', facts: { kind: 'revision', reopened: true }, is: 'yes' },
    {
      name: 'reopened revision without why',
      facts: { kind: 'revision', reopened: true },
      command: { what: '' },
      is: 'action-waits-for-revision',
    },
    { name: 'dropped without why', command: { outcome: 'dropped', what: '' }, is: 'dropped-without-why' },
    { name: 'ended twice', facts: { state: 'done' }, is: 'action-closed' },
  ])('ends: $name ($is)', ({ facts, command, is }) => {
    expect(said(mayFinish({ ...open, ...facts }, { ...end, ...command }))).toBe(is);
  });

  it('opens again when the step fails on a job inspected after the change, and not otherwise', () => {
    expect(recurs({ state: 'done', changedAt: 1000 }, 1000)).toBe(true);
    expect(recurs({ state: 'open', changedAt: 1000 }, 2000)).toBe(true);
    expect(recurs({ state: 'done', changedAt: 1000 }, 999)).toBe(false);
    expect(recurs({ state: 'dropped', changedAt: 1000 }, 2000)).toBe(false);
    expect(recurs({ state: 'open', changedAt: null }, 2000)).toBe(false);
    expect(recurs({ state: 'done', changedAt: 1000 }, null)).toBe(false);
  });

  it('is reviewed once something has changed; too early needs a later day', () => {
    const facts = { state: 'done' as const, changed: true, today };
    expect([
      said(decideReview(facts, { result: 'worked', nextOn: null })),
      said(decideReview({ ...facts, changed: false }, { result: 'worked', nextOn: null })),
      said(decideReview({ ...facts, state: 'dropped' }, { result: 'worked', nextOn: null })),
      said(decideReview(facts, { result: 'too_early', nextOn: null })),
      said(decideReview(facts, { result: 'too_early', nextOn: today })),
      said(decideReview(facts, { result: 'too_early', nextOn: '2026-11-12' })),
    ]).toEqual(['yes', 'nothing-in-force', 'action-closed', 'review-next-day', 'review-next-day', 'yes']);
  });
});

describe('the same gap elsewhere', () => {
  const entry = { outcome: 'done', match: 'not_asked', noted: false, filled: false, observerId: 'a', answer: 'done' };
  const [early, closed] = ['ended_before', 'could_not'].map((outcome) => ({
    ...entry,
    outcome,
    filled: true,
    observerId: 'b',
    answer: outcome,
  }));
  const place = (more: Partial<Place>): Place => ({ ownExtra: false, followed: true, entries: [entry], ...more });
  it.each<{ name: string; at: Partial<Place>; shows: string[] }>([
    { name: 'done and checked afterwards', at: {}, shows: [] },
    { name: 'done as written, nothing checked afterwards', at: { followed: false }, shows: ['not_followed'] },
    { name: 'nothing recorded', at: { entries: [] }, shows: ['no_entry'] },
    { name: 'nothing recorded at our own extra', at: { entries: [], ownExtra: true }, shows: ['no_entry', 'extra_not_done'] },
    { name: 'own extra, none at the property', at: { ownExtra: true, entries: [{ ...entry, outcome: 'none_at_property' }] }, shows: [] },
    { name: 'could not', at: { entries: [{ ...entry, outcome: 'could_not' }] }, shows: ['could_not'] },
    { name: 'from the opening only', at: { entries: [{ ...entry, outcome: 'from_opening' }] }, shows: ['could_not'] },
    { name: 'visit ended', at: { entries: [early!] }, shows: ['could_not'] },
    { name: 'done by one, and the visit ended before the other', at: { entries: [entry, early!] }, shows: [] },
    { name: 'done by one, and danger closed it for the other', at: { entries: [closed!, entry] }, shows: [] },
    { name: 'done when the danger was over', at: { entries: [{ ...closed!, observerId: 'a' }, entry] }, shows: [] },
    {
      name: 'danger, then the end of the visit: nobody differs',
      at: { entries: [{ ...closed!, observerId: 'a' }, early!] },
      shows: ['could_not'],
    },
    { name: 'our own extra, not reached', at: { ownExtra: true, entries: [early!] }, shows: ['could_not', 'extra_not_done'] },
    { name: 'counts differ', at: { followed: false, entries: [{ ...entry, match: 'differs' }] }, shows: ['differs'] },
    { name: 'outside, with a note', at: { entries: [{ ...entry, match: 'outside', noted: true }] }, shows: [] },
    { name: 'outside, without a note', at: { entries: [{ ...entry, match: 'outside' }] }, shows: ['outside'] },
    { name: 'partner differs', at: { entries: [entry, { ...entry, observerId: 'b', answer: 'other' }] }, shows: ['partner_differs'] },
    { name: 'one person, corrected', at: { entries: [entry, { ...entry, answer: 'other' }] }, shows: [] },
  ])('$name', ({ at, shows }) => expect(gapsAt(place(at))).toEqual(shows));

  const facts: TellFacts = { roles: ['owner'], onCall: false, verdict: 'same_gap', legal: false, told: false };
  const tell: TellCommand = {
    decision: 'tell',
    danger: false,
    insurerWord: 'Agreed on 12 May, in the file',
    attorneyWord: '',
    words: 'Please look whether the receptacle works.',
  };
  it.each<{ name: string; facts?: Partial<TellFacts>; command?: Partial<TellCommand>; is: string }>([
    { name: "owner, after the insurer's word", is: 'yes' },
    { name: 'owner without it', command: { insurerWord: ' ' }, is: 'insurer-word-missing' },
    { name: 'not telling needs it too', command: { decision: 'not_tell', insurerWord: '', words: '' }, is: 'insurer-word-missing' },
    { name: 'not telling', command: { decision: 'not_tell', words: '' }, is: 'yes' },
    { name: 'lead inspector', facts: { roles: ['lead_inspector'] }, is: 'telling-is-the-owners' },
    { name: 'lead on call, no danger', facts: { roles: ['lead_inspector'], onCall: true }, is: 'telling-is-the-owners' },
    {
      name: 'lead on call, danger, waits for nobody',
      facts: { roles: ['lead_inspector'], onCall: true, verdict: null },
      command: { danger: true, insurerWord: '' },
      is: 'yes',
    },
    { name: 'lead not on call, danger', facts: { roles: ['lead_inspector'] }, command: { danger: true }, is: 'telling-is-the-owners' },
    {
      name: 'not telling of a danger',
      facts: { roles: ['lead_inspector'], onCall: true },
      command: { danger: true, decision: 'not_tell' },
      is: 'telling-is-the-owners',
    },
    { name: 'not looked at', facts: { verdict: null }, is: 'look-first' },
    { name: 'found fine', facts: { verdict: 'fine' }, is: 'no-gap-to-tell' },
    { name: 'told before', facts: { told: true }, is: 'told-already' },
    { name: 'a letter of nothing', command: { words: 'Hello' }, is: 'danger-letter-empty' },
    { name: 'a suit without the attorney', facts: { legal: true }, is: 'attorney-word-missing' },
    { name: 'a suit with the attorney', facts: { legal: true }, command: { attorneyWord: 'By phone, 12 May' }, is: 'yes' },
  ])('telling: $name ($is)', ({ facts: more, command, is }) => {
    expect(said(decideTelling({ ...facts, ...more }, { ...tell, ...command }))).toBe(is);
  });
});
