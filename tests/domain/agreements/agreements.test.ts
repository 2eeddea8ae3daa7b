// Rendering, signers, signing and the gate.
import { describe, expect, it } from 'vitest';
import { agreementFacts, appointmentInWords } from '@backsight/domain/agreements/facts';
import { agreementDiffers, invoicesDiffer } from '@backsight/domain/agreements/differs';
import { gateOfFacts, mayOverride, type GateFacts } from '@backsight/domain/agreements/gate';
import { NOT_REVIEWED, PLACEHOLDERS, placeholdersIn, renderAgreement } from '@backsight/domain/agreements/render';
import {
  addressOwners,
  CAPACITIES,
  linkEnds,
  mayBeClients,
  maySignAs,
  stillToSign,
  type Capacity,
} from '@backsight/domain/agreements/signers';
import { decideSigning } from '@backsight/domain/agreements/signing';
import { dueOn } from '@backsight/domain/fees/billing';
import { needsOf } from '@backsight/domain/jobs/needs';
import { TERMS } from '@backsight/domain/jobs/words';
import { AGREEMENT_TEXTS } from '../../../prisma/seed/starter/agreement.ts';

describe('a rendered agreement', () => {
  it('holds the facts, and says first that no attorney has reviewed it', () => {
    const answer = renderAgreement(
      { body: 'For {{client}} at {{ address }}.', reviewed: false },
      { client: 'Cleo', address: '1 Quay Street' },
    );
    expect(answer).toMatchObject({ ok: true, value: `${NOT_REVIEWED}\n\nFor Cleo at 1 Quay Street.` });
  });
  it('stays quiet about that once one has', () => {
    expect(renderAgreement({ body: 'Plain.', reviewed: true }, {})).toMatchObject({ value: 'Plain.' });
  });
  it('never fills in what a value says', () => {
    expect(renderAgreement({ body: '{{client}}', reviewed: true }, { client: '{{fee}} $& $1' })).toMatchObject({ value: '{{fee}} $& $1' });
  });
  it('leaves nothing behind for an empty notice', () => {
    expect(renderAgreement({ body: 'End.\n\n{{notices}}\n', reviewed: true }, {})).toMatchObject({ value: 'End.' });
  });
  it.each([
    ['{{nobody}}', {}, 'unknown-placeholder'],
    ['{{}}', {}, 'unknown-placeholder'],
    ['{{constructor}}', {}, 'unknown-placeholder'],
    ['{{fee}}', {}, 'empty-placeholder'],
    ['{{fee}}', { fee: '  ' }, 'empty-placeholder'],
  ])('%s is refused', (body, facts, code) => {
    expect(renderAgreement({ body, reviewed: true }, facts)).toMatchObject({ ok: false, code });
  });
  it('knows every placeholder of the starter text', () => {
    const bodies = AGREEMENT_TEXTS.flatMap(({ clauses }) => clauses.map(({ body }) => body)).join('\n');
    expect(placeholdersIn(bodies).filter((name) => !(name in PLACEHOLDERS))).toEqual([]);
  });
  it('says the appointment in local time, also after the clocks changed', () => {
    expect(appointmentInWords({ startsAt: '2026-05-19T14:00:00Z', endsAt: '2026-05-19T17:30:00Z' }, 'America/Chicago')).toBe(
      'Tuesday, May 19, 2026, 9:00 AM to 12:30 PM CDT',
    );
    expect(appointmentInWords({ startsAt: '2026-11-03T15:00:00Z', endsAt: '2026-11-03T18:00:00Z' }, 'America/Chicago')).toBe(
      'Tuesday, November 3, 2026, 9:00 AM to 12:00 PM CST',
    );
  });
  it('names licenses, and who does what is not done by the firm', () => {
    const facts = agreementFacts({
      number: 1,
      firm: 'F',
      firmPhone: '1',
      address: 'A',
      zone: 'America/Chicago',
      terms: 'billed_to_closing',
      reportDueAt: '2026-05-21T22:00:00.000Z',
      feeCents: 45_000,
      feeKnown: true,
      clients: ['Cleo', 'Dov'],
      visit: {
        startsAt: '2026-05-19T14:00:00Z',
        endsAt: '2026-05-19T17:00:00Z',
        pair: [
          { name: 'Anna', license: 'WI-20' },
          { name: 'Ben', license: null },
        ],
      },
      services: [{ name: 'Septic', provider: 'Lake Septic', contractsWithUs: false }],
    });
    expect(facts).toMatchObject({
      client: 'Cleo and Dov',
      pair: 'Anna (license WI-20) and Ben',
      fee: '$450.00',
      report_due: 'May 21, 2026',
      notices: 'Septic is done by Lake Septic, which contracts with the client directly.',
    });
    expect(facts.terms).toContain('whether or not the sale closes');
  });
});

const cleo = { partyId: 'c', name: 'Cleo', email: 'Cleo@test.example', minor: false };

describe('signers', () => {
  it('are adults, and at least one', () => {
    expect(mayBeClients([cleo]).ok).toBe(true);
    expect(mayBeClients([])).toMatchObject({ code: 'no-client' });
    expect(mayBeClients([cleo, { ...cleo, name: 'Kid', minor: true }])).toMatchObject({
      code: 'client-is-minor',
      about: { names: ['Kid'] },
    });
  });
  it('name the authority when they sign for somebody else', () => {
    expect(maySignAs('self', '').ok).toBe(true);
    expect(maySignAs('trustee', 'Trust deed of 2019, copy on file').ok).toBe(true);
    for (const capacity of (Object.keys(CAPACITIES) as Capacity[]).filter((one) => one !== 'self'))
      expect(maySignAs(capacity, ' '), capacity).toMatchObject({ code: 'authority-missing' });
  });
  it.each([
    ['an agent', [cleo], [{ name: 'Arno', email: 'cleo@TEST.example ', as: 'buyers agent' }], ['Arno (buyers agent)']],
    ['another signer', [cleo, { ...cleo, partyId: 'd', name: 'Dov' }], [], ['Dov (another signer)']],
    [
      'nobody else',
      [cleo],
      [
        { name: 'Arno', email: 'arno@test.example', as: 'buyers agent' },
        { name: 'Nil', email: null, as: 'payer' },
      ],
      [],
    ],
  ])('an address that is also that of %s is found', (_, clients, others, owners) => {
    expect(addressOwners(cleo, clients, others)).toEqual(owners);
  });
  it('all sign, or one, as the firm decided', () => {
    const signers = [
      { name: 'Cleo', signed: true },
      { name: 'Dov', signed: false },
    ];
    expect([stillToSign(signers, true), stillToSign(signers, false), stillToSign([signers[1]!], false)]).toEqual([['Dov'], [], ['Dov']]);
  });
  it('have 30 days from the visit', () => {
    expect(linkEnds(new Date('2026-05-19T17:00:00Z'), new Date('2026-05-12T00:00:00Z')).toISOString()).toBe('2026-06-18T17:00:00.000Z');
    expect(linkEnds(null, new Date('2026-05-12T00:00:00Z')).toISOString()).toBe('2026-06-11T00:00:00.000Z');
  });
});

describe('an agreement that was issued', () => {
  const template = 'Between {{firm}} and {{client}}.\nOn {{appointment}}\nServices: {{services}}\nFee: {{fee}}';
  const body = 'Between Lake Firm and Cleo.\nOn Tuesday\nServices: Inspection\nFee: $450.00';
  const now = { client: 'Cleo', services: 'Inspection', fee: '$450.00' };
  it.each<[string, Partial<typeof now>, string[]]>([
    ['says what the job is', {}, []],
    ['has another fee', { fee: '$1,450.00' }, ['The agreement differs from the job in the fee.']],
    ['has a fee that only begins alike', { fee: '$450.0' }, ['The agreement differs from the job in the fee.']],
    [
      'has other services and clients',
      { services: 'Inspection, Radon', client: 'Cleo and Dov' },
      ['The agreement differs from the job in what was ordered and the clients.'],
    ],
  ])('%s', (_, change, expected) => expect(agreementDiffers(body, template, { ...now, ...change })).toEqual(expected));
  it('is not measured by what its text never named', () =>
    expect(agreementDiffers('Plain.', 'Plain.', { ...now, fee: '$9.00' })).toEqual([]));
  it('is no matter of the invoices, which are compared in cents', () => {
    expect(invoicesDiffer(100, 100)).toEqual([]);
    expect(invoicesDiffer(45_000, 40_000)).toEqual(['The fee is $450.00, and $400.00 is invoiced.']);
  });
});

describe('signing', () => {
  const whole = { name: ' Cleo  Client ', read: true, consent: true, sha256: 'a', word: ' Heron.', strokes: '', interpreter: '' };
  const shown = { sha256: 'a', word: 'heron' };
  it('takes a name, both boxes and the words that were shown', () => {
    expect(decideSigning(shown, whole)).toMatchObject({ ok: true, value: { name: 'Cleo Client' } });
  });
  it.each([
    [{ read: false }, 'not-read'],
    [{ consent: false }, 'no-consent'],
    [{ name: 'x' }, 'name-missing'],
    [{ sha256: 'b' }, 'agreement-changed'],
    [{ word: 'egret' }, 'format-unproven'],
    [{ word: '' }, 'format-unproven'],
    [{ strokes: '[[1,1,2,2]]' }, 'drawing-empty'],
  ])('%o is refused', (change, code) => {
    expect(decideSigning(shown, { ...whole, ...change })).toMatchObject({ ok: false, code });
  });
});

describe('a fee that is due on the day of the visit', () => {
  const job = {
    number: 1,
    firm: 'F',
    firmPhone: '1',
    address: 'A',
    zone: 'America/Chicago',
    reportDueAt: '2026-05-21T22:00:00.000Z',
    feeCents: 45_000,
    feeKnown: true,
    clients: ['Cleo'],
    visit: null,
    services: [],
  };
  it('is said so in the list of terms and in the agreement, is no need of its own, and keeps no visit from starting', () => {
    expect(TERMS.due_at_visit).toBe('due on the day of the visit');
    expect(agreementFacts({ ...job, terms: 'due_at_visit' }).terms).toBe(`The fee is ${TERMS.due_at_visit}.`);
    expect(gateOfFacts({ ...open, terms: 'due_at_visit', paidCents: 0 }).missing).toEqual([]);
    const start = new Date('2026-05-20T14:00:00Z');
    expect(
      needsOf({ facts: {}, services: [], terms: 'due_at_visit', tenant: false, parties: [] }, start, start).map(({ kind }) => kind),
    ).not.toContain('payment');
    expect(dueOn('due_at_visit', '2026-05-20', '2026-05-12')).toBe('2026-05-20');
  });
  it('differs from a deposit, which is wanted before the visit by the list, the agreement, the needs and the gate', () => {
    expect(TERMS.deposit).toMatch(/^deposit before the visit/);
    expect(agreementFacts({ ...job, terms: 'deposit' }).terms).toMatch(/^A deposit is due before the visit/);
    expect(gateOfFacts({ ...open, terms: 'deposit', depositCloses: true }).missing).toEqual(['fee-unpaid']);
  });
});

const open: GateFacts = {
  jobKind: 'inspection',
  signers: [{ name: 'Cleo', signed: true }],
  everySigner: true,
  terms: 'due_at_visit',
  feeCents: 100,
  invoicedCents: 100,
  paidCents: 0,
  depositCents: 0,
  depositCloses: false,
  unacknowledged: [],
};

describe('the gate', () => {
  it.each<[string, Partial<GateFacts>, string[]]>([
    ['is open when all is there', {}, []],
    ['wants the signature', { signers: [{ name: 'Cleo', signed: false }] }, ['agreement-unsigned']],
    ['wants an agreement', { signers: null }, ['agreement-unsigned']],
    ['asks for none on a callback visit', { jobKind: 'callback_visit', signers: null, feeCents: 0, invoicedCents: 0 }, []],
    ['wants the fee where it is due at booking', { terms: 'due_at_booking', paidCents: 99 }, ['fee-unpaid']],
    ['is content when it is paid', { terms: 'due_at_booking', paidCents: 100 }, []],
    ['waits for no deposit, where the firm does not', { terms: 'deposit', depositCents: 40 }, []],
    [
      'wants the whole deposit, where the firm does',
      { terms: 'deposit', depositCloses: true, depositCents: 40, paidCents: 39 },
      ['fee-unpaid'],
    ],
    ['is content with the deposit', { terms: 'deposit', depositCloses: true, depositCents: 40, paidCents: 40 }, []],
    ['waits for nobody who pays at the closing', { terms: 'billed_to_closing' }, []],
    [
      'wants acknowledgements',
      {
        unacknowledged: [
          { name: 'Anna', procedure: 'Attic', number: 2 },
          { name: 'Ben', procedure: 'Attic', number: 2 },
        ],
      },
      ['acknowledgement'],
    ],
  ])('%s', (_, change, missing) => {
    const gate = gateOfFacts({ ...open, ...change });
    expect(gate.missing).toEqual(missing);
    expect(gate.sentences.join(' ')).not.toMatch(/required by law/i);
  });
  it.each<[string, Partial<GateFacts>, string[]]>([
    ['none of a deposit', { depositCents: 4_000 }, ['The deposit has not come in; the visit may begin all the same.']],
    ['a part', { depositCents: 4_000, paidCents: 1_500 }, ['$25.00 of the deposit has not come in; the visit may begin all the same.']],
    ['all of it', { depositCents: 4_000, paidCents: 4_000 }, []],
    ['none, and the gate is closed for it', { depositCents: 4_000, depositCloses: true }, []],
  ])('warns of %s', (_, change, warnings) =>
    expect(gateOfFacts({ ...open, terms: 'deposit', feeCents: 10_000, invoicedCents: 10_000, ...change }).warnings).toEqual(warnings),
  );
  it.each([
    [['fee-unpaid'], 'booked', 'Paid at the door today', null],
    [[], 'booked', 'Paid at the door today', 'gate-is-open'],
    [['fee-unpaid'], 'booked', '  short  ', 'reason-too-short'],
    [['fee-unpaid'], 'cancelled', 'Paid at the door today', 'visit-not-ahead'],
  ])('with %o missing of a %s visit, "%s" answers %s', (missing, state, reason, code) => {
    expect(mayOverride({ missing }, { state }, reason)).toMatchObject(code ? { ok: false, code } : { ok: true });
  });
});
