// What the slot search knows and what it is asked: plain data, as read from the database.
import type { Day, Minute } from './time.ts';
import type { Place, TravelSource } from './travel.ts';
import type { TravelData } from './travelModel.ts';

export type Qualification = { key: string; /** last valid day; null = does not end */ until: Day | null };

export type Shift = { day: Day; start: Minute; end: Minute };

export type PersonInput = {
  id: string;
  name: string;
  /** Where the working day starts and ends. */
  base: Place;
  /** Last day on which the license is valid; null = no license. */
  licensedUntil: Day | null;
  licensedFrom?: Day;
  qualifications: Qualification[];
  /** In training: goes only with somebody who may go first. Without a license he counts toward no rule at all. */
  trainee: boolean;
  /** May be the first of a pair. */
  mayLead: boolean;
  /** Working hours, driving from and to the base included. */
  shifts: Shift[];
  /** Times away, spent at the base. */
  off: (Shift & { why: string })[];
  /** Revisions not acknowledged yet: not offered for visits on days after `afterDay`. */
  missingAcknowledgements: { revision: string; afterDay: Day }[];
  /** Booked minutes in the last four weeks, for fairness. */
  recentMinutes: number;
  /** Properties and parties to which the person may not be sent. */
  barredFrom?: string[];
  /** Licenses that the rule pack does not ask of this person in training as the second of a pair; absent = all are asked. */
  unlicensedSecond?: readonly string[];
  /** Size on file for each kind of kit that is worn. */
  sizes?: Readonly<Record<string, string>>;
  /** Takes the place of the firm's `overtimeLimit`. */
  overtimeLimit?: Minute;
};

/** A booked or held visit. `personIds` is its crew, the first one first; observers are busy too but are no part of the crew. */
export type Busy = {
  id: string;
  personIds: string[];
  observerIds?: string[];
  day: Day;
  start: Minute;
  end: Minute;
  place: Place;
  kit: string[];
  /** Writing of its report, still to be done by the first after the visit; none when absent. */
  reportMinutes?: Minute;
};

/** must_together: each of the two goes only with a person he is tied to. */
export type PairRule = { kind: 'never_together' | 'must_together'; a: string; b: string };

/** Pieces of kit of one kind. They are loaded in the morning, so a crew keeps a piece for the whole day. */
export type KitPool = {
  kind: string;
  count: number;
  outOfService: { from: Day; until?: Day; count: number }[];
  /** Words for the kind; the kind itself when absent. */
  name?: string;
  /** These pieces are some of those of another kind: the ladders that are long enough. */
  of?: string;
  /** One size of a kind that each member wears; `kind` is then its `wornPool`. */
  worn?: string;
};

/** A time closed for weather. */
export type WeatherClosure = {
  id: string;
  fromDay: Day;
  fromMinute: Minute;
  untilDay: Day;
  untilMinute: Minute;
  /** Names of towns, to which a place belongs when none is nearer; empty: everywhere. */
  towns: readonly string[];
  /** Only visits with work on the roof. */
  outdoorOnly: boolean;
  reason: string;
};

export type World = {
  people: PersonInput[];
  busy: Busy[];
  pairRules: PairRule[];
  kit: KitPool[];
  /** Days on which two people went together; days of `busy` need not be repeated. */
  together?: { a: string; b: string; day: Day }[];
  /** How many minutes past the end of the working hours the drive home may end; 0 when absent. */
  overtimeLimit?: Minute;
  /** Driving times; without them the estimate by distance. */
  travel?: TravelData;
  closures?: readonly WeatherClosure[];
};

/** An outside provider: when he begins after the start of the visit, how long he takes, until when his papers hold, where else he is. */
export type OutsideProvider = {
  id: string;
  name: string;
  offset: Minute;
  minutes: Minute;
  /** Last day of the license and of the insurance certificate; null = none is asked. */
  licensedUntil: Day | null;
  insuredUntil: Day | null;
  busy: readonly Shift[];
};

/** A service that one of these providers does beside the crew. */
export type OutsideNeed = { service: string; providers: readonly OutsideProvider[] };

export type StartQuery = {
  place: Place;
  durationMinutes: Minute;
  /** Writing of the report by the first: done after the visit, or by the end of his next working day. None when absent. */
  reportMinutes?: Minute;
  crewSize: 1 | 2;
  /** Qualifications that every member must hold. */
  needEach: string[];
  /** Qualifications that the crew must hold between them. */
  needAny: string[];
  kit: string[];
  /** Present when the roof is walked: the visit must start at least `offsetMinutes` before sunset. */
  roofWork?: { offsetMinutes: Minute };
  days: Day[];
  earliest: Minute;
  latestEnd: Minute;
  /** Starts lie on this grid, counted from midnight. */
  grid: 15 | 30;
  /** `days`: days on which somebody who comes too is in the county anyway. */
  wishes?: { personId?: string; half?: 'morning' | 'afternoon'; days?: readonly Day[] };
  /** Most options returned. */
  limit: number;
  /** Most options returned of one day; all when absent. */
  perDay?: number;
  /** Only these people are looked at: the question about a wanted pair. */
  only?: readonly string[];
  outside?: readonly OutsideNeed[];
  notBefore?: { day: Day; minute: Minute };
  /** Offset of the local clock from UTC by day, east positive; needed for every day when there is roof work. */
  utcOffsetMinutesByDay: Record<Day, number>;
  /** Last day on which the report is of use, and how long after the visit's end it is ready. */
  reportDeadline?: { day: Day; reportMinutesAfter: Minute };
  /** Property and parties of the job, compared with `barredFrom`. */
  involves?: string[];
};

/** A chosen start and crew. */
export type Choice = { day: Day; start: Minute; first: string; second: string | null };

/** What a start costs, each part in minutes of one person's time. */
export type ScoreParts = {
  /** Added driving of the first and of the second; may be negative by a minute of rounding. */
  addedDriving: [number, number];
  idleGap: number;
  overtime: number;
  fairness: number;
  rotation: number;
  wish: number;
};

export type Tightest = { kind: 'travel' | 'working hours' | 'daylight' | 'asked hours'; slack: Minute };

export type StartOption = Choice & {
  end: Minute;
  /** Sum of the parts; lower is better. */
  score: number;
  parts: ScoreParts;
  sentence: string;
  /** Things to tell the caller before he takes this start. */
  marks: string[];
  /** The limit that this start comes closest to. */
  tightest: Tightest;
  /** Where the driving times of the crew come from, the least certain of them; null when nobody drives. */
  travelSource: TravelSource | null;
};

export type BlockedDay = { day: Day; reasons: string[] };
