// A firm as it was before kit that fits, money, sealed papers, texts of clauses and signing: one walk through every migration since.
import { AGREEMENT_TEXTS } from '../../prisma/seed/starter/agreement.ts';
import { createHash, randomUUID } from 'node:crypto';
import { beforeAll, expect, it } from 'vitest';
import { oldDatabase } from '../support/oldDatabase.ts';

const old = oldDatabase('0009');
const AT = '2026-01-05T15:00:00Z';
const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');
const put = async (table: string, row: Record<string, unknown>): Promise<string> => {
  const columns = Object.keys(row).join(', ');
  await old.run(`INSERT INTO ${table} (${columns}) SELECT ${columns} FROM jsonb_populate_record(NULL::${table}, $1)`, [
    JSON.stringify(row),
  ]);
  return row.id as string;
};
const BODY = 'Between the firm and the client.\n\nPlease read {{client}}.';
let applied: string[];

async function people() {
  await put('firm', {
    id: 1,
    name: 'Old Firm',
    phone: '1',
    email: 'a@test.example',
    address: 'x',
    zone: 'America/Chicago',
    on_call_phone: '1',
    set_up_at: AT,
  });
  const where = { zone: 'America/Chicago', jurisdiction: 'US-WI', address: 'x', lat: 44, lon: -88, hours: {} };
  const office = await put('office', { id: randomUUID(), name: 'Birchmere', ...where });
  const home = { home_address: 'x', home_lat: 44, home_lon: -88, started_on: '2024-01-01', recorded_at: AT };
  const person = await put('person', { id: randomUUID(), office_id: office, name: 'Ida', email: 'ida@test.example', phone: 'x', ...home });
  const party = await put('party', { id: randomUUID(), name: 'Paula', email: 'p@test.example', recorded_at: AT });
  return { office, person, party };
}

/** A job at a house with its ZIP code; the first also gets an agreement that was signed, two versions of its report, and a callback. */
async function houses({ office }: { office: string }): Promise<string[]> {
  const schedule = await put('fee_schedule', {
    id: randomUUID(),
    number: 1,
    name: 'x',
    body: {},
    state: 'in_force',
    in_force_from: AT,
    recorded_at: AT,
  });
  const rules = await put('booking_rules', { id: randomUUID(), number: 1, body: {}, in_force_from: AT, recorded_at: AT });
  const jobs: string[] = [];
  for (const [at, zip] of ['54901', '60601', '', '09001'].entries()) {
    const place = { address: `${at} Alder Road`, town: 'Birchmere', zip, address_key: `${at}`, lat: 44, lon: -88, recorded_at: AT };
    const property = await put('property', { id: randomUUID(), ...place });
    const of = { office_id: office, property_id: property, schedule_id: schedule, rules_id: rules, facts: {} };
    if (at < 3)
      jobs.push(
        await put('job', {
          id: randomUUID(),
          number: 1001 + at,
          kind: 'inspection',
          state: 'reported',
          terms: 'due_at_visit',
          recorded_at: AT,
          ...of,
        }),
      );
  }
  return jobs;
}

async function papers(job: string, { person, party }: { person: string; party: string }) {
  const kept = () => put('kept_text', { id: randomUUID(), salt: '\\x00', body: 'Paula Prior', digest: 'x', recorded_at: AT });
  const text = await put('agreement_text', {
    id: randomUUID(),
    number: 1,
    title: 'Agreement',
    body: BODY,
    consent_text: 'I agree',
    in_force_from: AT,
    recorded_at: AT,
  });
  await put('agreement_text', { id: randomUUID(), number: 2, title: 'Never used', body: 'x', consent_text: 'y', recorded_at: AT });
  const agreement = await put('agreement', {
    id: randomUUID(),
    job_id: job,
    text_id: text,
    body: BODY,
    sha256: sha256(BODY),
    issued_at: AT,
    recorded_at: AT,
  });
  const link = { token_hash: 'h', token_ends_at: AT, capacity: 'trustee', authority: 'deed of trust' };
  const signer = await put('signer', { id: randomUUID(), agreement_id: agreement, party_id: party, ...link });
  const proof = {
    sha256: sha256(BODY),
    consent_sha256: sha256('I agree'),
    method: 'link',
    device: 'phone',
    ip_hash: 'i',
    happened_at: AT,
    recorded_at: AT,
  };
  await put('signature', { id: randomUUID(), signer_id: signer, name_text_id: await kept(), ...proof });
  for (const version of [1, 2])
    await put('report', {
      id: randomUUID(),
      job_id: job,
      version,
      source: 'drafted',
      body: {},
      inspected_on: '2026-01-05',
      completed_on: '2026-01-05',
      report_on: '2026-01-06',
      inspected_by: [person],
      prepared_by: person,
      recorded_at: AT,
    });
}

/** A callback with a remedy that waits, and a mail whose subject has a line end. */
async function afterwards(job: string, { person }: { person: string }) {
  const textId = await put('kept_text', { id: randomUUID(), salt: '\\x00', body: 'The roof leaks', digest: 'x', recorded_at: AT });
  const due = { acknowledge_due_at: AT, triage_due_at: AT, decision_due_at: AT, received_at: AT, recorded_at: AT };
  const callback = await put('callback', {
    id: randomUUID(),
    number: 1,
    job_id: job,
    speaker: 'client',
    kind: 'missed',
    state: 'concluded',
    system: 'roof',
    place: 'x',
    remedy_sought: '',
    binding: true,
    text_id: textId,
    ...due,
  });
  await put('remedy', {
    id: randomUUID(),
    callback_id: callback,
    kind: 'goodwill_payment',
    state: 'proposed',
    cents: 5000,
    payee: 'Paula',
    proposed_by: person,
    recorded_at: AT,
  });
  await put('outgoing_mail', {
    id: randomUUID(),
    message_key: 'k',
    to_address: 'p@test.example',
    to_name: 'Paula',
    subject: 'Two\nlines',
    body: 'b',
    state: 'waiting',
    next_try_at: AT,
    about_kind: 'job',
    about_id: job,
    recorded_at: AT,
  });
}

beforeAll(async () => {
  await old.run(`INSERT INTO kit_kind (key, name, calibrated, carried_by_all) VALUES ('ladder', 'Extension ladder', false, false)`);
  await put('ledger_account', { code: 'bank', name: 'Bank', kind: 'asset' });
  await put('approval_limit', { role: 'owner', limit_cents: null });
  await put('approval_limit', { role: 'office_manager', limit_cents: 50_000 });
  await put('visit_kind', { key: 'inspection', name: 'Inspection', crew_size: 2, minutes: 180 });
  const firm = await people();
  const [first] = await houses(firm);
  await papers(first!, firm);
  await afterwards(first!, firm);
  applied = await old.bringUp();
});

it('passes every migration in their order', () =>
  expect(applied.map((name) => name.slice(0, 4))).toEqual(
    expect.arrayContaining(['0009', '0010', '0011', '0012', '0013', '0014', '0015', '0017', '0018']),
  ));
it('keeps kit and gains what fits and long ladders', async () =>
  expect(
    await old.rows(`SELECT key, worn, of_kind, min_feet FROM kit_kind WHERE key IN ('ladder', 'ladder_28', 'respirator') ORDER BY key`),
  ).toEqual([
    ['ladder', false, null, null],
    ['ladder_28', false, 'ladder', 28],
    ['respirator', true, null, null],
  ]));
it('keeps its accounts and gains those of taxes and returned payments; settings begin as they are built in', async () => {
  const codes = (await old.rows('SELECT code FROM ledger_account ORDER BY code')).flat();
  expect(codes).toEqual(expect.arrayContaining(['bank', 'sales-tax', 'returned-fees', 'owner-equity']));
  expect(await old.rows('SELECT paper_size, report_due_days FROM firm')).toEqual([['letter', 2]]);
  expect(await old.rows('SELECT count(*)::int FROM mail_settings')).toEqual([[1]]);
});
it('keeps limits and lengths of visits, gains gates that are closed and open as before, and discounts that never change', async () => {
  expect(await old.rows('SELECT role, limit_cents, discount_cents FROM approval_limit ORDER BY role')).toEqual([
    ['office_manager', 50_000, null],
    ['owner', null, null],
  ]);
  expect(await old.rows("SELECT minutes, report_minutes, version FROM visit_kind WHERE key = 'inspection'")).toEqual([[180, 0, 1]]);
  await put('money_rules', { id: 1, tax_services: [] });
  expect(await old.rows('SELECT deposit_closes_gate, paid_before_hand_over FROM money_rules')).toEqual([[false, true]]);
  await expect(old.run("UPDATE approval_limit SET discount_cents = 1 WHERE role = 'owner'")).rejects.toThrow('approval_limit_discount');
  const [[job]] = (await old.rows('SELECT id::text FROM job ORDER BY number LIMIT 1')) as [[string]];
  const said = { job_id: job, reason: 'met at the fair', recorded_at: AT };
  await put('job_discount', { id: randomUUID(), ...said, percent_hundredths: 1000 });
  await put('job_discount', { id: randomUUID(), ...said });
  for (const wrong of [{ cents: 5, percent_hundredths: 5 }, { cents: 0 }, { percent_hundredths: 10_001 }, { cents: 5, reason: '' }])
    await expect(put('job_discount', { id: randomUUID(), ...said, ...wrong })).rejects.toThrow('job_discount_one_amount');
  await expect(old.run('UPDATE job_discount SET cents = 1')).rejects.toThrow();
  await expect(old.run('DELETE FROM job_discount')).rejects.toThrow();
});
it('keeps waiting mail, its subject on one line', async () => {
  expect(await old.rows('SELECT subject, state, kind FROM outgoing_mail')).toEqual([['Two lines', 'waiting', 'note']]);
  expect(await old.rows('SELECT language, assistance, large_print FROM party')).toEqual([['', 'none', false]]);
});
it('keeps a text as one clause word for word, withdraws one that never came into force, and adds the example of a settlement release', async () =>
  expect(
    await old.rows("SELECT state, clauses->0->>'body', kind, locked, in_force_from IS NOT NULL FROM agreement_text ORDER BY number"),
  ).toEqual([
    ['approved', BODY, 'inspection', [], true],
    ['withdrawn', 'x', 'inspection', [], true],
    ['approved', AGREEMENT_TEXTS[2]!.clauses[0]!.body, 'settlement_release', [], true],
  ]));
it('keeps what was signed byte for byte, by whom and in whose name', async () => {
  expect(await old.rows('SELECT body, sha256 FROM agreement')).toEqual([[BODY, sha256(BODY)]]);
  expect(
    await old.rows(
      'SELECT s.capacity, s.authority, s.revoked_at, g.sha256, g.consent_text, g.format_word, g.photo_sha256, k.body FROM signature g JOIN signer s ON s.id = g.signer_id JOIN kept_text k ON k.id = g.name_text_id',
    ),
  ).toEqual([['trustee', 'deed of trust', null, sha256(BODY), '', '', null, 'Paula Prior']]);
});
it('files reports in the register, and goes on counting there', async () => {
  expect(await old.rows('SELECT version, register_no FROM report ORDER BY version')).toEqual([
    [1, 1],
    [2, null],
  ]);
  expect(await old.rows(`SELECT next FROM number_counter WHERE kind = 'report'`)).toEqual([[2]]);
});
it('gains the rules of states, and says in which each house lies: by ZIP code, else by the office', async () => {
  expect(await old.rows('SELECT states FROM firm')).toEqual([[['US-WI']]]);
  expect(
    await old.rows("SELECT jurisdiction, version_day::text FROM rule_pack WHERE jurisdiction IN ('US-NC', 'US-TX') ORDER BY 1, 2"),
  ).toEqual([
    ['US-NC', '2026-11-28'],
    ['US-TX', '2026-07-01'],
    ['US-TX', '2026-11-28'],
  ]);
  expect(await old.rows('SELECT address_key, state FROM property ORDER BY address_key')).toEqual([
    ['0', 'US-WI'],
    ['1', 'US-IL'],
    ['2', 'US-WI'],
    ['3', ''],
  ]);
  expect(await old.rows('SELECT kind, state, cents FROM remedy')).toEqual([['goodwill_payment', 'proposed', 5000]]);
});
