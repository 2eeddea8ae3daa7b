// A state's rules as dated data: what each row says, where it was read and how sure that is, and which row binds on a day.

export const TOPICS = {
  standard: 'Published standard',
  agreement: 'Agreement before the visit',
  cap: 'Limit of liability',
  claim: 'Time to bring a claim',
  records: 'Keeping records',
  papers: 'What papers must show',
  report: 'Handing over the report',
  repairs: 'Repairs after an inspection',
  interests: 'Conflicts of interest and pay',
  scope: 'What counts as a home inspection',
  education: 'Education hours',
} as const;
export type Topic = keyof typeof TOPICS;

/** How sure a row is. `none`: nothing was found, so what the firm does there is its own policy and required by nobody. */
export const CERTAINTIES = {
  found: 'read in an excerpt of the source',
  second_hand: 'read in a secondary copy',
  memory: 'from memory, to be read in the source',
  none: 'no rule was found: policy of the firm',
} as const;
export type Certainty = keyof typeof CERTAINTIES;

/** From which of the four days of a job a time runs. */
export const CLOCK_STARTS = {
  inspected: 'the day of the inspection',
  completed: 'the completion of the inspection',
  delivered: 'the delivery of the report',
  discovered: 'the discovery of the matter',
} as const;
export type ClockStart = keyof typeof CLOCK_STARTS;

/** What a row does, for the program; null: it is there to be read. `fields` are those of agreement texts. */
export type Effect =
  | { kind: 'standard'; name: string }
  | { kind: 'written_first'; fields: readonly string[] }
  | { kind: 'clause_needed'; clause: string }
  | { kind: 'cap_barred' }
  | { kind: 'cap_floor'; cents: number }
  | { kind: 'claim_time'; years: number; from: ClockStart }
  | { kind: 'shorter_time_barred' }
  | { kind: 'keep'; years: number; from: ClockStart }
  | { kind: 'no_paid_repairs'; months: number | null }
  /** The report within so many days of `from`, the day itself not counted; `unlessAgreed`: the agreement may say another day. */
  | { kind: 'report_due'; days: number; unit: 'days' | 'businessDays'; from: 'inspected' | 'completed'; unlessAgreed: boolean };

export type RuleRow = {
  key: string;
  topic: Topic;
  words: string;
  citation: string;
  certainty: Certainty;
  effect: Effect | null;
  /** ISO days, both inclusive; null = not known to begin or to end. */
  fromDay: string | null;
  untilDay: string | null;
};

export type RulePack = { id: string; jurisdiction: string; versionDay: string; name: string; rows: readonly RuleRow[] };

/** The version of a state's pack on a day; before the first one the first counts, for nothing earlier was read. */
export function packOn<P extends { jurisdiction: string; versionDay: string }>(
  packs: readonly P[],
  jurisdiction: string,
  day: string,
): P | null {
  const own = packs.filter((pack) => pack.jurisdiction === jurisdiction).toSorted((a, b) => a.versionDay.localeCompare(b.versionDay));
  return own.findLast(({ versionDay }) => versionDay <= day) ?? own[0] ?? null;
}

/** The rows that hold on a day. */
export const rowsOn = <R extends { fromDay: string | null; untilDay: string | null }>(rows: readonly R[], day: string): R[] =>
  rows.filter(({ fromDay, untilDay }) => (fromDay === null || fromDay <= day) && (untilDay === null || day <= untilDay));

type Kind = Effect['kind'];
export type RowWith<K extends Kind> = RuleRow & { effect: Extract<Effect, { kind: K }> };

/** The rows that do one kind of thing. */
export const rowsWith = <K extends Kind>(rows: readonly RuleRow[], kind: K): RowWith<K>[] =>
  rows.filter((row): row is RowWith<K> => row.effect?.kind === kind);
