// What can be brought in from a spreadsheet, and by which words its columns are known.

export const RECORD_KINDS = {
  people: 'People of the firm',
  clients: 'Clients',
  properties: 'Properties',
  jobs: 'Jobs done before',
} as const;
export type RecordKind = keyof typeof RECORD_KINDS;
export const ALL_RECORD_KINDS = Object.keys(RECORD_KINDS) as readonly RecordKind[];

/** How the cells of a field are read; `day` and `money` have formats of their own. */
export type CellKind = 'text' | 'email' | 'phone' | 'zip' | 'state' | 'day' | 'time' | 'money' | 'number' | 'roles' | 'services' | 'person';
export type FieldDef = {
  label: string;
  cell: CellKind;
  /** Needed, unless one of the others that are named here is given. */
  needed?: true | readonly string[];
  help?: string;
  /** Heads by which its column is known, in small letters without marks. */
  heads: readonly string[];
  most?: number;
};

const NAME = ['name', 'full name', 'client', 'client name', 'customer', 'customer name', 'buyer', 'buyer name', 'contact', 'contact name'];
const FIRST = ['first name', 'first', 'given name', 'firstname', 'forename', 'client first name', 'buyer first name'];
const LAST = ['last name', 'last', 'surname', 'family name', 'lastname', 'client last name', 'buyer last name'];
const EMAIL = [
  'email',
  'e mail',
  'mail',
  'email address',
  'e mail address',
  'mail address',
  'client email',
  'buyer email',
  'customer email',
];
const PHONE = [
  'phone',
  'telephone',
  'tel',
  'phone number',
  'mobile',
  'cell',
  'cell phone',
  'mobile phone',
  'client phone',
  'buyer phone',
  'customer phone',
];
const ADDRESS = [
  'address',
  'street',
  'street address',
  'property address',
  'property',
  'address 1',
  'address line 1',
  'site address',
  'inspection address',
  'house',
  'location',
];
const TOWN = ['town', 'city', 'municipality', 'property city', 'property town', 'city town', 'village'];
const ZIP = ['zip', 'zip code', 'zipcode', 'postal code', 'postcode', 'property zip', 'post code'];
const STATE = ['state', 'st', 'property state', 'province'];
const YEAR = ['year built', 'built', 'yr built', 'year', 'construction year', 'built in'];
const AREA = ['living area', 'square feet', 'sq ft', 'sqft', 'area', 'size', 'square footage', 'sf'];

const place = {
  address: {
    label: 'Street address',
    cell: 'text',
    needed: true,
    heads: ADDRESS,
    most: 200,
    help: 'House number and street, without the town',
  },
  town: { label: 'Town', cell: 'text', needed: true, heads: TOWN, most: 100 },
  zip: { label: 'ZIP code', cell: 'zip', heads: ZIP, help: 'Needed where the town is none of those that the firm knows' },
  state: { label: 'State', cell: 'state', heads: STATE, help: 'Else by the ZIP code' },
  yearBuilt: { label: 'Year built', cell: 'number', heads: YEAR },
  livingArea: { label: 'Living area (sq ft)', cell: 'number', heads: AREA },
} as const satisfies Record<string, FieldDef>;

const people = {
  name: {
    label: 'Name',
    cell: 'text',
    needed: ['firstName', 'lastName'],
    heads: [...NAME, 'employee', 'inspector', 'staff', 'employee name', 'inspector name'],
    most: 120,
    help: 'Or first and last name',
  },
  firstName: { label: 'First name', cell: 'text', heads: FIRST, most: 60 },
  lastName: { label: 'Last name', cell: 'text', heads: LAST, most: 60 },
  email: {
    label: 'E-mail',
    cell: 'email',
    needed: true,
    heads: [...EMAIL, 'work email', 'login'],
    help: 'They sign in with it once you invite them',
  },
  phone: { label: 'Phone', cell: 'phone', needed: true, heads: PHONE },
  roles: {
    label: 'What they do',
    cell: 'roles',
    heads: ['role', 'roles', 'title', 'job title', 'position', 'what they do', 'function', 'job'],
    help: 'inspector, lead inspector, office manager, owner; several parted by a semicolon. Without it: inspector',
  },
  trainee: { label: 'In training', cell: 'text', heads: ['trainee', 'in training', 'apprentice', 'training'], help: 'yes or no' },
  home: {
    label: 'Home address',
    cell: 'text',
    heads: ['home address', 'home', ...ADDRESS],
    most: 200,
    help: 'Where the first drive of a day begins. Without it: the office, until somebody says it',
  },
  town: { label: 'Home town', cell: 'text', heads: ['home town', 'home city', ...TOWN], most: 100 },
  zip: { label: 'Home ZIP code', cell: 'zip', heads: ['home zip', ...ZIP] },
  startedOn: {
    label: 'Works here since',
    cell: 'day',
    heads: ['started', 'start date', 'hired', 'hire date', 'works here since', 'since', 'date hired', 'started on'],
    help: 'Without it: today. For jobs done before, give the real day',
  },
  endedOn: {
    label: 'Last day',
    cell: 'day',
    heads: ['left', 'left on', 'last day', 'end date', 'ended', 'termination date', 'ended on'],
    help: 'Of those who have left: they can still be named on jobs done before',
  },
} as const satisfies Record<string, FieldDef>;

const clients = {
  name: { label: 'Name', cell: 'text', needed: ['firstName', 'lastName'], heads: NAME, most: 200, help: 'Or first and last name' },
  firstName: { label: 'First name', cell: 'text', heads: FIRST, most: 60 },
  lastName: { label: 'Last name', cell: 'text', heads: LAST, most: 60 },
  email: { label: 'E-mail', cell: 'email', heads: EMAIL, help: 'By this somebody is known again' },
  phone: { label: 'Phone', cell: 'phone', heads: PHONE },
} as const satisfies Record<string, FieldDef>;

const jobs = {
  day: {
    label: 'Day of the inspection',
    cell: 'day',
    needed: true,
    heads: [
      'date',
      'day',
      'inspection date',
      'inspected',
      'inspected on',
      'date of inspection',
      'inspection day',
      'job date',
      'service date',
      'day of the inspection',
    ],
  },
  time: { label: 'Start', cell: 'time', heads: ['time', 'start', 'start time', 'inspection time'], help: 'Like 9:00 AM' },
  ...place,
  client: { label: 'Client', cell: 'text', needed: ['clientFirst', 'clientLast'], heads: NAME, most: 200, help: 'Or first and last name' },
  clientFirst: { label: 'First name of the client', cell: 'text', heads: FIRST, most: 60 },
  clientLast: { label: 'Last name of the client', cell: 'text', heads: LAST, most: 60 },
  clientEmail: { label: 'E-mail of the client', cell: 'email', heads: EMAIL, help: 'By this somebody is known again' },
  clientPhone: { label: 'Phone of the client', cell: 'phone', heads: PHONE },
  services: {
    label: 'Services',
    cell: 'services',
    heads: ['service', 'services', 'inspection type', 'type', 'service type', 'ordered', 'type of inspection', 'inspection services'],
    help: 'By their names in Services; several parted by a semicolon or a plus. Without it: the inspection alone',
  },
  fee: {
    label: 'Fee paid',
    cell: 'money',
    heads: ['fee', 'fees', 'price', 'amount', 'total', 'fee paid', 'paid', 'invoice total', 'amount paid', 'cost', 'charge'],
    help: 'Shown on the job. Nothing is owed, and no account changes',
  },
  first: {
    label: 'Inspector',
    cell: 'person',
    heads: ['inspector', 'inspector 1', 'first inspector', 'lead', 'lead inspector', 'inspected by', 'inspectors', 'pair'],
    help: 'A name or e-mail of somebody here; both of a pair may stand in one cell',
  },
  second: {
    label: 'Second inspector',
    cell: 'person',
    heads: ['inspector 2', 'second inspector', 'partner', 'second', 'co inspector', 'assistant'],
  },
  deliveredOn: {
    label: 'Report handed over',
    cell: 'day',
    heads: [
      'report date',
      'report delivered',
      'delivered',
      'report sent',
      'report handed over',
      'delivered on',
      'date of report',
      'report delivered on',
    ],
    help: 'Claim windows may run from this day',
  },
  reference: {
    label: 'Number before',
    cell: 'text',
    heads: [
      'number',
      'job',
      'job number',
      'no',
      'id',
      'reference',
      'ref',
      'job no',
      'invoice number',
      'order number',
      'number before',
      'job id',
      'report number',
    ],
    most: 60,
    help: 'Under which the job was kept until now',
  },
} as const satisfies Record<string, FieldDef>;

const FIELDS = { people, clients, properties: place, jobs } as const satisfies Record<RecordKind, Record<string, FieldDef>>;

export type Field = FieldDef & { key: string };
/** The fields of a kind, in the order in which a person reads them. */
export const fieldsOf = (kind: RecordKind): Field[] => Object.entries<FieldDef>(FIELDS[kind]).map(([key, field]) => ({ key, ...field }));

/** Number of the column of each field that has one, from 0. */
export type Columns = Record<string, number>;

/** Labels of fields that are needed and have no column. */
export const missingFields = (kind: RecordKind, columns: Columns): string[] =>
  fieldsOf(kind)
    .filter(
      ({ key, needed }) =>
        needed !== undefined && columns[key] === undefined && (needed === true || !needed.some((other) => columns[other] !== undefined)),
    )
    .map(({ label }) => label);
