// Answers the one question of the slot search: people with papers and hours, visits, absences, pairing rules and kit.
import { WRITING_REACH_DAYS } from '@backsight/store/schedule/world';
import type { Answer } from '../answer.ts';
import { all, by, one, type Row, type Tables } from '../tables.ts';
import { dayOf, isoDay, sortBy, sum, wallOf } from '../when.ts';
import { crewOf } from './schedule.ts';

type Asked = { from: Date; until: Date; zone: string; now: Date; officeId: string | null };
const DAY = 86_400_000;
const REACH = WRITING_REACH_DAYS * DAY;

type Papers = { licenses: unknown[]; qualifications: unknown[]; patterns: unknown[]; exceptions: unknown[] };
const papersKnown = new WeakMap<Row, Papers>();

/** Papers and usual hours, which the demo sets once. */
function papersOf(t: Tables, p: Row): Papers {
  let papers = papersKnown.get(p);
  if (!papers) {
    papersKnown.set(
      p,
      (papers = {
        licenses: sortBy(
          by(t, 'license', 'personId', p.id).map((l) => ({ kind: l.kind, from: isoDay(l.fromDay)!, until: isoDay(l.untilDay)! })),
          ({ from }) => from,
        ),
        qualifications: by(t, 'personQualification', 'personId', p.id).map((one) => ({
          key: one.kind,
          from: isoDay(one.fromDay),
          until: isoDay(one.untilDay),
        })),
        patterns: by(t, 'workPattern', 'personId', p.id).map((w) => ({
          weekday: w.weekday,
          start: w.startMinute,
          end: w.endMinute,
          from: isoDay(w.fromDay),
          until: isoDay(w.untilDay),
        })),
        exceptions: by(t, 'workException', 'personId', p.id).map((x) => ({ day: isoDay(x.day)!, start: x.startMinute, end: x.endMinute })),
      }),
    );
  }
  return papers;
}

function personOf(t: Tables, p: Row, q: Asked, late: readonly Late[]) {
  return {
    id: p.id,
    name: p.name,
    lat: p.homeLat,
    lon: p.homeLon,
    trainee: p.trainee,
    mayLead: p.mayLead,
    startedOn: isoDay(p.startedOn),
    endedOn: isoDay(p.endedOn),
    recentMinutes: recentMinutes(t, p.id, q.now),
    ...papersOf(t, p),
    bars: [
      ...by(t, 'personBar', 'personId', p.id).map(({ propertyId }) => propertyId),
      ...by(t, 'personPartyBar', 'personId', p.id).map(({ partyId }) => partyId),
    ],
    sizes: Object.fromEntries(by(t, 'personSize', 'personId', p.id).map(({ kind, size }) => [kind, size])),
    missing: late.filter(({ said }) => !said.has(p.id)).map(({ revision, afterDay }) => ({ revision, afterDay })),
  };
}

const recentMinutes = (t: Tables, personId: string, now: Date): number =>
  sum(
    by(t, 'assignment', 'personId', personId).filter((a) => a.live && a.startsAt.getTime() > now.getTime() - 28 * DAY && a.startsAt <= now),
    (a) => {
      const visit = one(t, 'visit', a.visitId)!;
      return (visit.endsAt.getTime() - visit.startsAt.getTime()) / 60_000 + (a.place === 'first' ? visit.reportMinutes : 0);
    },
  );

type Late = { revision: string; afterDay: string; said: ReadonlySet<string> };

/** Revisions that have to be acknowledged by a day before the end of the span, and who has done so. */
function lateOnes(t: Tables, q: Asked): Late[] {
  const open = all(t, 'inForcePeriod')
    .filter(({ untilAt }) => untilAt === null || untilAt > q.from)
    .map((f) => one(t, 'procedureRevision', f.revisionId)!);
  const named = open.filter((r) => r.asks && r.acknowledgeBy < q.until).map((r) => ({ r, procedure: one(t, 'procedure', r.procedureId)! }));
  return sortBy(
    named,
    ({ procedure }) => procedure.position,
    ({ r }) => r.number,
  ).map(({ r, procedure }) => ({
    revision: `${procedure.title}, revision ${r.number}`,
    afterDay: dayOf(r.acknowledgeBy, q.zone),
    said: new Set(by(t, 'acknowledgement', 'revisionId', r.id).map(({ personId }) => personId as string)),
  }));
}

function visitsOf(t: Tables, q: Asked) {
  const since = new Date(q.from.getTime() - 13 * DAY);
  const binding = all(t, 'visit').filter(
    (v) => v.live && v.startsAt.getTime() < q.until.getTime() + REACH && v.endsAt > since && (v.state !== 'held' || v.holdEndsAt > q.now),
  );
  return sortBy(
    binding,
    (v) => v.startsAt.getTime(),
    ({ id }) => id,
  ).map((v) => {
    const { day, minute } = wallOf(v.startsAt, q.zone);
    const place = one(t, 'property', one(t, 'job', v.jobId)!.propertyId)!;
    return {
      id: v.id,
      day,
      start: minute,
      end: minute + Math.ceil((v.endsAt.getTime() - v.startsAt.getTime()) / 60_000),
      lat: place.lat,
      lon: place.lon,
      crew: crewOf(t, v.id).map(({ personId }) => personId),
      observers: by(t, 'observer', 'visitId', v.id).map(({ personId }) => personId),
      kit: by(t, 'visitKit', 'visitId', v.id).map(({ kind }) => kind),
      reportMinutes: by(t, 'report', 'jobId', v.jobId).length > 0 ? 0 : v.reportMinutes,
    };
  });
}

const outsideOf = (t: Tables, q: Asked) =>
  all(t, 'providerVisit').flatMap((w) => {
    const visit = one(t, 'visit', w.visitId)!;
    const at = new Date(visit.startsAt.getTime() + w.offsetMinutes * 60_000);
    const binds = visit.live && (visit.state !== 'held' || visit.holdEndsAt > q.now);
    if (!binds || at >= q.until || at.getTime() <= q.from.getTime() - DAY) return [];
    const { day, minute } = wallOf(at, q.zone);
    return [{ providerId: w.providerId, visitId: w.visitId, day, start: minute, end: minute + w.minutes }];
  });

const absencesOf = (t: Tables, q: Asked) =>
  all(t, 'absence')
    .filter(
      (a) =>
        a.withdrawnAt === null &&
        a.state === 'approved' &&
        a.startsAt.getTime() < q.until.getTime() + REACH &&
        a.endsAt.getTime() > q.from.getTime() - REACH,
    )
    .map((a) => {
      const [start, end] = [wallOf(a.startsAt, q.zone), wallOf(a.endsAt, q.zone)];
      return { personId: a.personId, fromDay: start.day, fromMinute: start.minute, untilDay: end.day, untilMinute: end.minute };
    });

function kitOf(t: Tables, today: string) {
  const itemsOf = (kind: string, minFeet: number) =>
    all(t, 'kitItem').filter(
      (i) => i.kind === kind && (i.ladderFeet ?? 0) >= minFeet && (i.endedOn === null || isoDay(i.endedOn)! > today),
    );
  return all(t, 'kitKind').map((k) => ({
    kind: k.key,
    name: k.name,
    worn: k.worn,
    of: k.ofKind,
    calibrated: k.calibrated,
    carriedByAll: k.carriedByAll,
    items: itemsOf(k.ofKind ?? k.key, k.minFeet ?? 0).map((i) => ({ calibratedUntil: isoDay(i.calibratedUntil), size: i.size })),
  }));
}

/** Driving times as said by hand; the demo has no road service, and drives before any fit. */
function travelOf(t: Tables) {
  const setup = all(t, 'travelSetup')[0];
  const fit = setup?.fitId ? one(t, 'travelFit', setup.fitId)?.body : null;
  const area = (r: Row, side: 'a' | 'b') => ({ lat: r[`${side}Lat`], lon: r[`${side}Lon`], radiusKm: r[`${side}RadiusKm`] });
  const rules = sortBy(
    all(t, 'travelRule').filter(({ endedAt }) => endedAt === null),
    (r) => -r.recordedAt.getTime(),
    ({ id }) => id,
  ).map((r) =>
    r.kind === 'between'
      ? { kind: r.kind, a: area(r, 'a'), b: area(r, 'b'), minutes: r.minutes }
      : { kind: r.kind, a: area(r, 'a'), percent: r.percent },
  );
  const towns = sortBy(all(t, 'town'), ({ name }) => name).map(({ name, lat, lon }) => ({ name, lat, lon }));
  return { speeds: fit?.speeds ?? null, factors: fit?.factors ?? [], service: false, rules, towns, cells: [] };
}

const closuresOf = (t: Tables, q: Asked) =>
  sortBy(
    all(t, 'weatherClosure').filter((c) => !c.liftedAt && c.startsAt < q.until && c.endsAt > q.from),
    ({ startsAt }) => startsAt,
  ).map((c) => ({
    id: c.id,
    fromDay: dayOf(c.startsAt, q.zone),
    fromMinute: wallOf(c.startsAt, q.zone).minute,
    untilDay: dayOf(c.endsAt, q.zone),
    untilMinute: wallOf(c.endsAt, q.zone).minute,
    towns: c.towns,
    outdoorOnly: c.outdoorOnly,
    reason: c.reason,
  }));

function world(t: Tables, [from, until, zone, now, officeId]: readonly string[]) {
  const q: Asked = { from: new Date(from!), until: new Date(until!), zone: zone!, now: new Date(now!), officeId: officeId ?? null };
  const today = dayOf(q.from, q.zone);
  const late = lateOnes(t, q);
  const inspects = all(t, 'person').filter(
    (p) =>
      by(t, 'personRole', 'personId', p.id).some(({ role }) => role === 'inspector') && (p.endedOn === null || isoDay(p.endedOn)! >= today),
  );
  return [
    {
      people: sortBy(
        inspects.filter((p) => q.officeId === null || p.officeId === q.officeId),
        ({ id }) => id,
      ).map((p) => personOf(t, p, q, late)),
      visits: visitsOf(t, q),
      absences: absencesOf(t, q),
      pairRules: all(t, 'pairingRule')
        .filter(({ endedOn }) => endedOn === null || isoDay(endedOn)! > today)
        .map(({ kind, aId, bId }) => ({ kind, a: aId, b: bId })),
      kit: kitOf(t, today),
      closedDays: all(t, 'closedDay')
        .map(({ day }) => isoDay(day)!)
        .filter((day) => day >= dayOf(new Date(q.from.getTime() - REACH), q.zone)),
      closures: closuresOf(t, q),
      outside: outsideOf(t, q),
      traineeRule: null,
      travel: travelOf(t),
    },
  ];
}

export const WORLD_ANSWERS: readonly Answer[] = [{ marks: ['AS "closedDays"', 'AS "pairRules"'], reply: world }];
