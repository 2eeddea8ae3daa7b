// Tables held in memory, with the few verbs that the store uses on them: the demo firm is made here before it is loaded.

/** Columns by their names in the schema. Instants are Date, days Date at midnight UTC, JSON plain values. */
export type Row = Record<string, any>;
export type Table = { rows: Row[]; indexes: Map<string, Map<unknown, Row[]>> };
export type Tables = Map<string, Table>;

/** What a column holds when nobody says, where that is not null. */
const DEFAULTS: Record<string, Row> = {
  firm: {
    id: 1,
    demo: false,
    holdMinutes: 20,
    graceDays: 2,
    everySigner: true,
    reportDueDays: 2,
    mileageTenthCents: 700,
    states: [],
    paperSize: 'letter',
    version: 1,
  },
  person: { version: 1, trainee: false, mayLead: true, endedOn: null },
  party: { minor: false, wishes: '', askOwner: null, email: null, phone: null, language: '', assistance: 'none', largePrint: false },
  service: { base: false, providerOnly: false, extraVisit: null, endedOn: null, version: 1 },
  feeSchedule: { version: 1 },
  inquiry: { outcome: null, outcomeNote: '', jobId: null, closedAt: null, version: 1 },
  workPattern: { untilDay: null },
  personQualification: { untilDay: null },
  provider: { endedOn: null, offsetMinutes: 0, version: 1 },
  absence: { withdrawnAt: null, state: 'approved', decidedBy: null, decidedAt: null, decision: null },
  workException: { withdrawnAt: null, startMinute: null, endMinute: null },
  educationEntry: { withdrawnAt: null, fileSha256: null },
  mileageEntry: { withdrawnAt: null, odometerStart: null, odometerEnd: null, vehicleId: null },
  testItem: { awaited: true },
  laterLook: { visitId: null },
  kitCheck: { visitId: null },
  pairingRule: { endedOn: null },
  kitItem: { endedOn: null, calibratedUntil: null, seats: null, ladderFeet: null, size: null },
  kitKind: { worn: false, ofKind: null, minFeet: null },
  approvalLimit: { discountCents: null },
  insurancePolicy: { retroactiveOn: null, aggregateCents: null, claimMeans: '' },
  agreementText: {
    ...{ kind: 'inspection', state: 'approved', reason: '', version: 1, limits: { cap: { kind: 'none' }, claimMonths: null } },
    ...{
      basedOnId: null,
      authorId: null,
      approverId: null,
      approvedAt: null,
      withdrawnAt: null,
      attorney: null,
      attorneyOn: null,
      locked: [],
    },
  },
  job: { source: '', clientAttends: true, attendees: '', arrives: 'walk_through', version: 1, parentId: null, objectionOn: null },
  jobEvent: { textId: null, actorId: null },
  jobParty: { mayReceiveReport: false, consentAt: null },
  jobService: { providerId: null, agreedCents: null, contractsWithUs: null },
  property: { placeBy: 'town', state: '', version: 1 },
  travelRule: { endedAt: null },
  driveMark: { fromLat: null, fromLon: null },
  jobNeed: { askedAt: null, settledAt: null, settledBy: null },
  jobFeeLine: { assumption: null, withdrawnAt: null },
  visit: { reportMinutes: 60, walkThroughMinutes: 0, holdExtended: false, version: 1, holdEndsAt: null },
  invoice: { number: null, issuedAt: null, taxCents: 0, depositCents: 0 },
  invoiceLine: { taxCents: 0 },
  invoiceAct: { number: null, taxCents: 0, method: null, reference: '', recordedBy: null },
  moneyRules: {
    id: 1,
    severalPayers: false,
    depositPercent: 50,
    closingDays: 30,
    returnedFeeCents: 0,
    taxName: 'Sales tax',
    taxThousandths: 0,
    taxServices: [],
    depositClosesGate: false,
    paidBeforeHandOver: true,
    version: 1,
  },
  jobDiscount: { cents: null, percentHundredths: null },
  ledgerAccount: { own: false },
  ledgerEntry: { actorId: null, reversesId: null, realOn: null },
  payment: { recordedBy: null },
  ledgerLine: { partyId: null, jobId: null, callbackId: null },
  agreement: { supersedesId: null, remedyId: null },
  remedy: { round: 1, estimateId: null, waitsForRelease: false },
  remedyApproval: { round: 1, totalCents: null, reviewer: '', textId: null },
  signer: { authority: '', sharedAddress: false, sharedWith: '', authoritySha256: null, revokedAt: null, sentAt: null },
  signature: {
    consentText: '',
    formatWord: '',
    linkHash: '',
    keptWhere: '',
    strokesTextId: null,
    addressTextId: null,
    interpreterTextId: null,
    photoSha256: null,
  },
  procedureRevision: {
    version: 1,
    basedOnId: null,
    approverId: null,
    approvedAt: null,
    inForceFrom: null,
    acknowledgeBy: null,
    asks: true,
    retires: false,
    questions: [],
    graceTextId: null,
  },
  stepKey: { derivedFrom: null },
  inForcePeriod: { untilAt: null },
  siteRecord: { endedAs: null, sealedAt: null, sealSha256: null, sealedBy: null, sealAskedAt: null, sealAskedBy: null },
  sitePackage: { startDespiteGate: false },
  stepEntry: { observedApprox: false, textId: null, supersedesId: null, reason: null, itemId: null },
  packageStep: { itemId: null },
  report: { fileSha256: null, revisedOn: null, registerNo: null },
  callback: { version: 1, safety: false, ownerOnly: false },
  callbackClock: { metAt: null, metBy: null, droppedAt: null },
  callbackPause: { untilAt: null, untilBy: null },
  onCallDuty: { untilDay: null, endedAt: null, endedBy: null },
  dangerChain: { answeredAt: null, answeredBy: null, endedAt: null },
  correctiveAction: { version: 1, revisionId: null, changedAt: null, reopenedAt: null, doneAt: null, reviewOn: null, reviewerId: null },
  outgoingMail: {
    kind: 'note',
    calendar: null,
    urgent: false,
    attempts: 0,
    lastError: null,
    leaseUntil: null,
    maybeTwice: 0,
    sentAt: null,
    resendOf: null,
  },
  afterCheck: { outcome: null, textId: null, repeatId: null, actorId: null, doneAt: null },
  contactNote: { callbackId: null, textId: null },
  keptText: { erasedAt: null },
  numberCounter: {},
};

/** Columns that make a row the same as another, for adding only what is not there. */
const UNIQUE: Record<string, string[]> = {
  property: ['addressKey'],
  outgoingMail: ['messageKey'],
  acknowledgement: ['revisionId', 'personId'],
  jobNeed: ['jobId', 'kind'],
  laterLook: ['jobId', 'ruleKey'],
  stepKey: ['key'],
  party: ['id'],
  storedFile: ['sha256'],
};

/** Where rows written along with another one go, and by which column they name it. */
const CHILDREN: Record<string, { table: string; by: string }> = {
  'invoice.lines': { table: 'invoiceLine', by: 'invoiceId' },
  'correctiveAction.callbacks': { table: 'correctiveActionCallback', by: 'actionId' },
  'person.roles': { table: 'personRole', by: 'personId' },
};

const WITH_CHILDREN: Record<string, readonly string[]> = { invoice: ['lines'], correctiveAction: ['callbacks'], person: ['roles'] };

export const tableOf = (tables: Tables, name: string): Table => {
  let table = tables.get(name);
  if (!table) tables.set(name, (table = { rows: [], indexes: new Map() }));
  return table;
};

export const all = (tables: Tables, name: string): Row[] => tableOf(tables, name).rows;

/** Rows whose column, which never changes, holds the value; in the order in which they were added. */
export function by(tables: Tables, name: string, column: string, value: unknown): Row[] {
  const table = tableOf(tables, name);
  let index = table.indexes.get(column);
  if (!index) {
    table.indexes.set(column, (index = new Map()));
    for (const row of table.rows) file(index, row, column);
  }
  return index.get(value) ?? [];
}

export const one = (tables: Tables, name: string, id: unknown, column = 'id'): Row | null => by(tables, name, column, id)[0] ?? null;

const file = (index: Map<unknown, Row[]>, row: Row, column: string): void => {
  const held = index.get(row[column]);
  if (held) held.push(row);
  else index.set(row[column], [row]);
};

/** Adds a row with the defaults of its table. */
export function insert(tables: Tables, name: string, data: Row): Row {
  const table = tableOf(tables, name);
  const row: Row = { ...DEFAULTS[name], ...data };
  for (const key of WITH_CHILDREN[name] ?? []) {
    const child = CHILDREN[`${name}.${key}`]!;
    for (const each of data[key]?.create ?? []) insert(tables, child.table, { ...each, [child.by]: data.id });
    delete row[key];
  }
  table.rows.push(row);
  for (const [column, index] of table.indexes) file(index, row, column);
  return row;
}

const same = (a: unknown, b: unknown): boolean =>
  a instanceof Date && b instanceof Date ? a.getTime() === b.getTime() : (a ?? null) === (b ?? null);

const holds = (row: Row, where: Row): boolean =>
  Object.entries(where).every(([key, wanted]) => {
    if (wanted !== null && typeof wanted === 'object' && 'in' in wanted) return (wanted as { in: unknown[] }).in.includes(row[key]);
    if (wanted !== null && typeof wanted === 'object' && !(wanted instanceof Date)) return holds(row, wanted as Row); // a key of several columns, under its own name
    return same(row[key], wanted);
  });

const INDEXED = ['id', 'visitId', 'jobId'];

const found = (tables: Tables, name: string, where: Row): Row[] => {
  const column = INDEXED.find((key) => typeof where[key] === 'string');
  return (column ? by(tables, name, column, where[column]) : all(tables, name)).filter((row) => holds(row, where));
};

const change = (row: Row, data: Row): void => {
  for (const [key, value] of Object.entries(data)) {
    if (value !== undefined)
      row[key] = value !== null && typeof value === 'object' && 'increment' in value ? row[key] + value.increment : value;
  }
};

/** Times and `live` of an assignment follow its visit, as its foreign key says. */
const follow = (tables: Tables, name: string, rows: readonly Row[]): void => {
  if (name === 'visit')
    for (const { id, startsAt, endsAt, live } of rows)
      for (const table of ['assignment', 'observer', 'providerVisit'])
        for (const row of by(tables, table, 'visitId', id)) Object.assign(row, { startsAt, endsAt, live });
};

const remove = (tables: Tables, name: string, gone: readonly Row[]): { count: number } => {
  const table = tableOf(tables, name);
  table.rows = table.rows.filter((row) => !gone.includes(row));
  for (const [column, index] of table.indexes)
    for (const row of gone)
      index.set(
        row[column],
        (index.get(row[column]) ?? []).filter((held) => held !== row),
      );
  return { count: gone.length };
};

const changeAll = (tables: Tables, name: string, where: Row, data: Row): { count: number } => {
  const rows = found(tables, name, where);
  rows.forEach((row) => change(row, data));
  follow(tables, name, rows);
  return { count: rows.length };
};

const isThere = (tables: Tables, name: string, data: Row): boolean => {
  const keys = UNIQUE[name];
  if (!keys) throw new Error(`nobody said what is unique in ${name}`);
  return by(tables, name, keys[0]!, data[keys[0]!]).some((row) => keys.every((key) => same(row[key], data[key])));
};

type Given = { data?: any; where?: any; create?: any; update?: any; skipDuplicates?: boolean };

/** The verbs of one table as the store calls them. */
export const verbsOf = (tables: Tables, name: string) => ({
  create: async ({ data }: Given) => insert(tables, name, data),
  createMany: async ({ data, skipDuplicates }: Given) => {
    for (const row of data as Row[]) if (!skipDuplicates || !isThere(tables, name, row)) insert(tables, name, row);
  },
  update: async ({ where, data }: Given) => changeAll(tables, name, where, data),
  updateMany: async ({ where, data }: Given) => changeAll(tables, name, where, data),
  upsert: async ({ where, create, update }: Given) => {
    const rows = found(tables, name, where);
    if (rows.length === 0) insert(tables, name, create);
    else rows.forEach((row) => change(row, update));
  },
  delete: async ({ where }: Given) => remove(tables, name, found(tables, name, where)),
  deleteMany: async ({ where }: Given) => remove(tables, name, found(tables, name, where)),
});
