// The people of the invented firm: names, roles, homes, papers and hours.
import { ROLES, type Role } from '@backsight/domain/people/roles';
import type { Actor } from '@backsight/usecases/run';

export const FIRM = {
  name: 'Hollin Grebe House Inspection',
  phone: '920-555-0100',
  email: 'office@hollingrebe.example',
  address: '12 Ferry Street, Birchmere, WI 54901',
  zone: 'America/Chicago',
  onCallPhone: '920-555-0101',
};
export const OFFICE = { name: 'Birchmere', jurisdiction: 'US-WI', address: FIRM.address, lat: 44.031, lon: -88.541 };

/** One password for every demo sign-in: long enough for the rule, easy to type. */
export const DEMO_PASSWORD = 'tamarack lake demo';

const id = (n: number): string => `00000000-0000-7000-8000-0000000de${String(n).padStart(3, '0')}`;
export const OFFICE_ID = id(1);

type Papers = { insects?: boolean; radon?: boolean; infrared?: boolean; roof?: boolean };
export type Person = {
  key: string;
  id: string;
  name: string;
  roles: Role[];
  home: [string, number, number];
  yearsHere: number;
  licenseDaysLeft: number;
  papers: Papers;
  start: number;
  end: number;
  weekdays: number[];
  trainee: boolean;
};

const WEEK = [1, 2, 3, 4, 5];
let made = 10;
function person(key: string, name: string, roles: Role[], home: Person['home'], more: Partial<Person> = {}): Person {
  made += 1;
  return {
    key,
    id: id(made),
    name,
    roles,
    home,
    yearsHere: 4,
    licenseDaysLeft: 0,
    papers: {},
    start: 480,
    end: 1020,
    weekdays: WEEK,
    trainee: false,
    ...more,
  };
}

const LEAD: Role[] = ['lead_inspector', 'inspector'];
const INSPECTOR: Role[] = ['inspector'];

/** `licenseDaysLeft`: from today on; 0 = holds none. */
export const PEOPLE = {
  owner: person('owner', 'Harriet Oakes', ['owner'], ['3 Loon Lane, Birchmere', 44.036, -88.552], { yearsHere: 14 }),
  office: person('office', 'Dolores Whitcomb', ['office_manager'], ['41 Sedge Street, Birchmere', 44.027, -88.533], { yearsHere: 9 }),
  ruth: person('ruth', 'Ruth Castellano', LEAD, ['7 Orchard Row, Birchmere', 44.041, -88.529], {
    yearsHere: 11,
    licenseDaysLeft: 410,
    papers: { insects: true, radon: true, roof: true },
  }),
  tomas: person('tomas', 'Tomas Brandl', LEAD, ['88 Harbor Road, Port Ansel', 44.186, -88.466], {
    yearsHere: 10,
    licenseDaysLeft: 395,
    papers: { radon: true, infrared: true, roof: true },
  }),
  amos: person('amos', 'Amos Feld', INSPECTOR, ['15 Mill Street, Orrin Mills', 44.043, -88.735], {
    yearsHere: 7,
    licenseDaysLeft: 380,
    papers: { insects: true, radon: true },
  }),
  bea: person('bea', 'Bea Kowalke', INSPECTOR, ['210 Lake Street, Birchmere', 44.022, -88.548], {
    yearsHere: 6,
    licenseDaysLeft: 46,
    papers: { radon: true, infrared: true },
  }),
  curtis: person('curtis', 'Curtis Hale', INSPECTOR, ['9 Cooper Court, Stony Ferry', 44.108, -88.705], {
    yearsHere: 5,
    licenseDaysLeft: 520,
    papers: { insects: true },
  }),
  dana: person('dana', 'Dana Iverson', INSPECTOR, ['54 Tannery Road, Lower Kettle', 43.864, -88.484], {
    yearsHere: 5,
    licenseDaysLeft: 505,
    papers: { radon: true, roof: true },
    start: 450,
    end: 990,
  }),
  elio: person('elio', 'Elio Marchetti', INSPECTOR, ['31 Bluff Street, Port Ansel', 44.193, -88.452], {
    yearsHere: 3,
    licenseDaysLeft: 640,
    papers: { insects: true, radon: true },
  }),
  freya: person('freya', 'Freya Solheim', INSPECTOR, ['6 Reed Lane, Birchmere', 44.019, -88.526], {
    yearsHere: 4,
    licenseDaysLeft: 610,
    papers: { infrared: true },
    weekdays: [1, 2, 3, 4],
  }),
  gus: person('gus', 'Gus Pettibone', INSPECTOR, ['120 Depot Street, Birchmere', 44.033, -88.561], {
    yearsHere: 8,
    licenseDaysLeft: 300,
    papers: { radon: true },
  }),
  nora: person('nora', 'Nora Quist', INSPECTOR, ['2 Willow Court, Birchmere', 44.029, -88.537], {
    yearsHere: 1,
    licenseDaysLeft: 690,
    trainee: true,
  }),
} satisfies Record<string, Person>;
export type Who = keyof typeof PEOPLE;

export const everybody: readonly Person[] = Object.values(PEOPLE);
export const inspectors: readonly Person[] = everybody.filter(({ roles }) => roles.includes('inspector'));
export const byId = (personId: string): Person => everybody.find((one) => one.id === personId)!;
export const emailOf = ({ name }: Pick<Person, 'name'>): string => `${name.split(' ')[0]!.toLowerCase()}@hollingrebe.example`;

export const actorOf = ({ id: actorId, name, roles }: Person): Actor => ({ kind: 'person', id: actorId, name, roles });
export const SERVICE: Actor = { kind: 'service' };

export type SignIn = { name: string; role: string; email: string };
const ROLE_ORDER = ['owner', 'office_manager', 'lead_inspector', 'inspector'] as const;

/** Who can sign in to the demo, the widest role of each first. */
export const demoSignIns = (): SignIn[] =>
  ROLE_ORDER.flatMap((role) =>
    everybody
      .filter((one) => ROLE_ORDER.find((held) => one.roles.includes(held)) === role)
      .map((one) => ({ name: one.name, role: one.trainee ? 'inspector in training' : ROLES[role], email: emailOf(one) })),
  );
