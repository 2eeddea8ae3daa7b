// Writes what a spreadsheet came to, in the transaction of whoever brings it in: everything, or nothing.
import { instantOf } from '@backsight/domain/schedule/wallClock';
import type { Tx } from '@backsight/store/database';
import { addRows, type RecordTable } from '@backsight/store/firm/saveRecords';
import type { Frame } from '@backsight/store/firm/records';
import type { NewJob, Prepared, Tell } from './prepared.ts';

export type Writing = { bringInId: string; now: Date; by: string; frame: Frame; newId: () => string; firstNumber: number; tell: Tell };
type Rows = Record<string, unknown>[];

/** Rows of every table in the order in which they point at one another. */
export async function write(tx: Tx, prepared: Prepared, w: Writing): Promise<void> {
  const tables: [RecordTable, Rows][] = [
    ...ofPeople(prepared, w),
    ...ofParties(prepared, w),
    ...ofProperties(prepared, w),
    ...ofJobs(prepared, w),
  ];
  const total = tables.reduce((sum, [, rows]) => sum + rows.length, 0);
  let done = 0;
  for (const [table, rows] of tables)
    await addRows(tx, table, rows, (some) => {
      done += some;
      return w.tell('writing', done, total);
    });
}

const stamp = ({ bringInId, now }: Writing) => ({ bring_in_id: bringInId, recorded_at: now.toISOString() });

function ofPeople({ people }: Prepared, w: Writing): [RecordTable, Rows][] {
  const rows = people.map((one) => ({
    ...{
      id: one.id,
      office_id: w.frame.officeId,
      name: one.name,
      email: one.email,
      phone: one.phone,
      trainee: one.trainee,
      may_lead: !one.trainee,
    },
    ...{ home_address: one.homeAddress, home_lat: one.home.lat, home_lon: one.home.lon, started_on: one.startedOn, ended_on: one.endedOn },
    ...stamp(w),
  }));
  const roles = people.flatMap(({ id, roles: given }) => given.map((role) => ({ person_id: id, role })));
  return [
    ['person', rows],
    ['person_role', roles],
  ];
}

const ofParties = ({ parties }: Prepared, w: Writing): [RecordTable, Rows][] => [
  [
    'party',
    parties.map((one) => ({ ...one, minor: false, wishes: '', language: '', assistance: 'none', large_print: false, ...stamp(w) })),
  ],
];

function ofProperties({ properties }: Prepared, w: Writing): [RecordTable, Rows][] {
  const rows = properties.map(({ id, address, town, key, place }) => ({
    ...{ id, address, town, zip: place.zip, address_key: key, lat: place.lat, lon: place.lon, place_by: place.placeBy, state: place.state },
    ...stamp(w),
  }));
  const facts = properties
    .filter((one) => Object.keys(one.facts).length > 0)
    .map((one) => ({ id: w.newId(), property_id: one.id, facts: one.facts, recorded_at: w.now.toISOString(), recorded_by: w.by }));
  return [
    ['property', rows],
    ['fact_sheet', facts],
  ];
}

/** Jobs in the order of their days, so that newer ones have higher numbers. Their visits count as done before. */
function ofJobs(prepared: Prepared, w: Writing): [RecordTable, Rows][] {
  const times = timesIn(w.frame);
  const jobs = prepared.jobs
    .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
    .map((job, at) => ({ ...job, number: w.firstNumber + at, visitId: w.newId(), ...times(job) }));
  return [
    ['job', jobs.map((job) => jobRow(job, w))],
    [
      'past_job',
      jobs.map(({ id, deliveredOn, reference, minute }) => ({ job_id: id, delivered_on: deliveredOn, reference, timed: minute !== null })),
    ],
    [
      'job_party',
      jobs.map(({ id, partyId }) => ({ id: w.newId(), job_id: id, party_id: partyId, role: 'client', may_receive_report: true })),
    ],
    ['job_service', jobs.flatMap(({ id, services }) => services.map((key) => ({ job_id: id, service_key: key })))],
    ['job_fee_line', jobs.flatMap(({ id, cents }) => (cents === null ? [] : [feeRow(id, cents, w)]))],
    ['visit', jobs.map((job) => visitRow(job, w))],
    [
      'assignment',
      jobs.flatMap(({ visitId, people, starts_at, ends_at }) =>
        people.map((personId, n) => ({
          visit_id: visitId,
          place: n === 0 ? 'first' : 'second',
          person_id: personId,
          starts_at,
          ends_at,
          live: false,
        })),
      ),
    ],
  ];
}

const NOON = 12 * 60;

/** Noon where the file gives no time: it never shows as another day, wherever somebody reads it. */
function timesOf(day: string, minute: number | null, { zone, minutes }: Frame) {
  const at = instantOf(day, minute ?? NOON, zone);
  const from = at.ok ? at.value : new Date(`${day}T18:00:00Z`);
  return { starts_at: from.toISOString(), ends_at: new Date(from.getTime() + minutes * 60_000).toISOString() };
}

/** Each time of a day is worked out once: the calendar of a zone takes longer than all the rest. */
function timesIn(frame: Frame): (job: NewJob) => ReturnType<typeof timesOf> {
  const known = new Map<string, ReturnType<typeof timesOf>>();
  return ({ day, minute }) => {
    const key = `${day} ${minute}`;
    let times = known.get(key);
    if (!times) known.set(key, (times = timesOf(day, minute, frame)));
    return times;
  };
}

const jobRow = ({ id, number, propertyId, facts }: NewJob & { number: number }, w: Writing) => ({
  ...{ id, number, office_id: w.frame.officeId, property_id: propertyId, kind: 'inspection', state: 'reported', facts },
  ...{
    schedule_id: w.frame.scheduleId,
    rules_id: w.frame.rulesId,
    terms: 'due_at_booking',
    source: '',
    client_attends: false,
    attendees: '',
    arrives: 'not_at_all',
    version: 1,
  },
  ...stamp(w),
});

const feeRow = (jobId: string, cents: number, { newId, now }: Writing) => ({
  ...{ id: newId(), job_id: jobId, position: 0, rule_key: 'brought-in', label: 'Fee paid before', reason: 'As the spreadsheet says it' },
  ...{ cents, recorded_at: now.toISOString() },
});

type Timed = { id: string; visitId: string; starts_at: string; ends_at: string; minute: number | null };

const visitRow = ({ id, visitId, starts_at, ends_at, minute }: Timed, { frame, now }: Writing) => ({
  ...{ id: visitId, job_id: id, kind: 'inspection', crew_size: frame.crewSize, state: 'before', live: false, starts_at, ends_at },
  because: {
    sentence: minute === null ? 'Brought in from a spreadsheet, which gives the day and no time.' : 'Brought in from a spreadsheet.',
  },
  recorded_at: now.toISOString(),
});
