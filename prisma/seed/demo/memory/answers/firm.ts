// Answers about the firm, its people and its numbers.
import type { Answer } from '../answer.ts';
import { all, by, insert, one, type Row, type Tables } from '../tables.ts';
import { isoDay, sortBy } from '../when.ts';

const personOf = (t: Tables, p: Row) => ({
  id: p.id,
  officeId: p.officeId,
  name: p.name,
  email: p.email,
  phone: p.phone,
  trainee: p.trainee,
  mayLead: p.mayLead,
  homeAddress: p.homeAddress,
  homeLat: p.homeLat,
  homeLon: p.homeLon,
  startedOn: isoDay(p.startedOn),
  endedOn: isoDay(p.endedOn),
  version: p.version,
  roles: by(t, 'personRole', 'personId', p.id)
    .map(({ role }) => role)
    .sort(),
});

const PERSON = 'p.home_address AS "homeAddress"';

function nextNumber(t: Tables, [kind]: readonly string[]): { n: number }[] {
  const counter = one(t, 'numberCounter', kind, 'kind') ?? insert(t, 'numberCounter', { kind, next: 1001 });
  counter.next += 1;
  return [{ n: counter.next - 1 }];
}

const policyOf = (p: Row) => ({ ...p, startsOn: isoDay(p.startsOn), endsOn: isoDay(p.endsOn), retroactiveOn: isoDay(p.retroactiveOn) });

export const FIRM_ANSWERS: readonly Answer[] = [
  {
    marks: ['FROM rule_pack ORDER BY jurisdiction, version_day DESC'],
    reply: (t) =>
      sortBy(all(t, 'rulePack'), ({ jurisdiction }) => jurisdiction).map(({ versionDay, ...pack }) => ({
        ...pack,
        versionDay: isoDay(versionDay),
      })),
  },
  {
    marks: ['FROM rule_pack WHERE jurisdiction = $1'],
    reply: (t, [jurisdiction, day]) => {
      const packs = by(t, 'rulePack', 'jurisdiction', jurisdiction).map((pack) => ({ ...pack, versionDay: isoDay(pack.versionDay)! }));
      const own = sortBy(packs, ({ versionDay }) => versionDay);
      return [own.findLast(({ versionDay }) => versionDay <= String(day)) ?? own[0]].filter((pack) => pack !== undefined);
    },
  },
  { marks: ['SELECT states FROM firm'], reply: (t) => all(t, 'firm').map(({ states }) => ({ states })) },
  { marks: ['SELECT name, zone, demo, phone, email', 'FROM firm'], reply: (t) => all(t, 'firm').map((firm) => ({ ...firm })) },
  {
    marks: ['SELECT day::text AS day, name FROM closed_day'],
    reply: (t, [from]) =>
      sortBy(
        all(t, 'closedDay')
          .map((d) => ({ day: isoDay(d.day)!, name: d.name }))
          .filter(({ day }) => day >= from),
        ({ day }) => day,
      ),
  },
  { marks: ['FROM office ORDER BY name'], reply: (t) => sortBy(all(t, 'office'), ({ name }) => name) },
  {
    marks: ['FROM insurance_policy'],
    reply: (t) =>
      sortBy(
        all(t, 'insurancePolicy'),
        ({ endsOn }) => -endsOn.getTime(),
        ({ kind }) => kind,
      ).map(policyOf),
  },
  { marks: ['FROM approval_limit'], reply: (t) => sortBy(all(t, 'approvalLimit'), ({ role }) => role) },
  {
    marks: ['FROM approval_loan l'],
    reply: (t, [from]) =>
      all(t, 'approvalLoan')
        .filter(({ lenderId, role }) => by(t, 'personRole', 'personId', lenderId).some((held) => held.role === role))
        .map((l) => ({ ...l, fromDay: isoDay(l.fromDay), untilDay: isoDay(l.untilDay) }))
        .filter(({ untilDay }) => untilDay! >= from),
  },
  { marks: [PERSON, 'WHERE p.id = $1::uuid'], reply: (t, [id]) => by(t, 'person', 'id', id).map((p) => personOf(t, p)) },
  { marks: [PERSON, 'ORDER BY p.name COLLATE'], reply: (t) => sortBy(all(t, 'person'), ({ name }) => name).map((p) => personOf(t, p)) },
  {
    marks: ['SELECT name, email FROM person WHERE ended_on IS NULL'],
    reply: (t) =>
      all(t, 'person')
        .filter(({ endedOn }) => endedOn === null)
        .map(({ name, email }) => ({ name, email })),
  },
  {
    marks: ['SELECT id::text AS id, name FROM person WHERE id = ANY'],
    reply: (t, [ids]) =>
      all(t, 'person')
        .filter(({ id }) => ids.includes(id))
        .map(({ id, name }) => ({ id, name })),
  },
  { marks: ['INSERT INTO number_counter'], reply: (t, params) => nextNumber(t, params) },
];
