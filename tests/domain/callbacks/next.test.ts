// The act that the page of a callback offers first: by state, kind and who looks.
import { expect, it } from 'vitest';
import { nextAct, type NextFacts, type Viewer } from '../../../apps/web/src/features/callbacks/next.ts';

type Of = Parameters<typeof nextAct>[0];
const callback = (more: object = {}) =>
  ({
    kind: 'missed',
    state: 'received',
    remedies: [],
    conclusions: [],
    money: { reservedCents: 0 },
    ownerOnly: false,
    party: {},
    ...more,
  }) as unknown as Of;
const facts = ({ letters = [], ...after }: { letters?: { letter: string }[] } & Record<string, unknown> = {}) =>
  ({
    after: { assessment: null, checks: [], appeals: [], freeOwners: [], ...after },
    letters,
    today: '2026-06-11',
  }) as unknown as NextFacts;
const OFFICE: Viewer = { name: 'Otto', owner: false, judge: false, onJob: false };
const LEAD: Viewer = { name: 'Lena', owner: false, judge: true, onJob: false };
const OWNER: Viewer = { name: 'Olive', owner: true, judge: true, onJob: false };
const decided = [{ letter: 'decision' }];
const remedy = (state: string) => ({ remedies: [{ id: 'r', state }] });
const open = { appeals: [{ result: null, dueOn: '2026-07-01' }] };

it.each<[string, Viewer, object, Parameters<typeof facts>[0], string | null | undefined]>([
  ['a new one is acknowledged', OFFICE, {}, {}, 'Acknowledge'],
  ['a legal paper is assessed at once: its sender is not spoken with', OWNER, { kind: 'demand_or_suit' }, {}, 'assess'],
  ['a records request is closed once it was answered', OWNER, { kind: 'records_request', state: 'looking_into' }, {}, 'Close'],
  ['then assessed', OFFICE, { state: 'acknowledged' }, {}, 'assess'],
  ['then somebody else concludes, for the office', OFFICE, { state: 'looking_into' }, {}, undefined],
  ['and the lead concludes', LEAD, { state: 'looking_into' }, {}, 'conclude'],
  ['an assessed one is not assessed again', LEAD, { state: 'acknowledged' }, { assessment: { assignee: 'Lena' } }, 'conclude'],
  [
    'a conclusion of somebody of the job is confirmed',
    LEAD,
    { state: 'concluded', conclusions: [{ needsConfirmation: true, confirmedAt: null }] },
    {},
    'confirm',
  ],
  [
    'but not by a lead who was on the job',
    { ...LEAD, onJob: true },
    { state: 'concluded', conclusions: [{ needsConfirmation: true, confirmedAt: null }] },
    {},
    undefined,
  ],
  ['a concluded one gets a remedy', LEAD, { state: 'concluded' }, {}, 'remedy'],
  ['a refused remedy is none', LEAD, { state: 'concluded', ...remedy('refused') }, {}, 'remedy'],
  ['a proposed one is decided', OWNER, { state: 'concluded', ...remedy('proposed') }, {}, 'decide-r'],
  ['an approved one is told', OFFICE, { state: 'remedy_agreed', ...remedy('approved') }, {}, 'letter'],
  ['and carried out', OFFICE, { state: 'remedy_agreed', ...remedy('approved') }, { letters: decided }, undefined],
  [
    'money set aside is released',
    LEAD,
    { state: 'remedy_agreed', ...remedy('done'), money: { reservedCents: 5 } },
    { letters: decided },
    'reserve',
  ],
  ['and it is closed', LEAD, { state: 'remedy_agreed', ...remedy('done') }, { letters: decided }, 'Close'],
  [
    'nobody is written to in a matter for the owner alone',
    OWNER,
    { state: 'remedy_agreed', ...remedy('done'), ownerOnly: true },
    {},
    'Close',
  ],
  ['a closed one is told', OFFICE, { state: 'closed' }, { checks: [{ outcome: null, dueOn: '2026-06-30' }], letters: decided }, 'letter'],
  [
    'and asked after on its day',
    OFFICE,
    { state: 'closed' },
    { checks: [{ outcome: null, dueOn: '2026-06-11' }], letters: [{ letter: 'closing' }] },
    'check',
  ],
  [
    'and rests before it',
    OFFICE,
    { state: 'closed' },
    { checks: [{ outcome: null, dueOn: '2026-06-12' }], letters: [{ letter: 'closing' }] },
    null,
  ],
  ['an appeal comes before everything', OWNER, { state: 'looking_into' }, open, 'appeal'],
  ['but not for the owner who concluded', OWNER, {}, { ...open, freeOwners: ['Sam'] }, undefined],
  ['nor for the office', OFFICE, {}, open, undefined],
  ['a question is heard', OFFICE, { kind: 'question' }, {}, 'Acknowledge'],
  ['and answered', OFFICE, { kind: 'question', state: 'acknowledged' }, {}, 'Answer the question'],
  ['a near-miss is concluded at once', LEAD, { kind: 'near_miss' }, {}, 'conclude'],
  ['and closed', LEAD, { kind: 'near_miss', state: 'concluded' }, {}, 'Close'],
])('%s', (_, viewer, of, after, form) => {
  const next = nextAct(callback(of), viewer, facts(after));
  expect(next === null ? null : next.form).toBe(form);
});
