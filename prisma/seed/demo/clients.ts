// Invented callers and everybody who stands with them on a job.
import type { PartyInput } from '@backsight/usecases/jobs/steps/people';
import type { Chance } from './chance.ts';

const FIRST = [
  'Abel',
  'Brigid',
  'Clement',
  'Dorothea',
  'Edwin',
  'Fern',
  'Gideon',
  'Hazel',
  'Ivo',
  'June',
  'Karl',
  'Leona',
  'Magnus',
  'Nell',
  'Oskar',
  'Petra',
  'Quentin',
  'Rosalind',
  'Stellan',
  'Tilda',
  'Ulrich',
  'Vera',
  'Wendell',
  'Yvonne',
  'Zora',
  'Anselm',
  'Bettina',
  'Corwin',
  'Delia',
  'Emory',
];
const LAST = [
  'Aldersey',
  'Bramhall',
  'Coppock',
  'Draves',
  'Eastlund',
  'Fennimore',
  'Garrity',
  'Hambrick',
  'Ilstrup',
  'Jessen',
  'Kettler',
  'Lindemuth',
  'Marchbank',
  'Norquist',
  'Ostrander',
  'Pruitt',
  'Quarles',
  'Rademaker',
  'Stavrum',
  'Thornbury',
  'Uhlenkott',
  'Vandermeer',
  'Wickstrom',
  'Yandle',
  'Zastrow',
  'Birkholz',
  'Crandell',
  'Dufresne',
  'Engstrand',
  'Falconer',
];
const AGENTS = [
  'Marlene Tuttle',
  'Roderick Amdahl',
  'Sylvia Cantwell',
  'Ferris Goodnow',
  'Ingrid Paulsen',
  'Lyle Hostetter',
  'Camille Brandt',
  'Noel Strickland',
];

export type Caller = { parties: PartyInput[]; clients: PartyInput[]; preListing: boolean; agent: string; payerId: string };

const phone = (n: number): string => `920-555-0${110 + (n % 40)}`;
const email = (name: string, n: number): string => `${name.toLowerCase().replace(/[^a-z]+/g, '.')}.${n}@mail.example`;
const agentId = (n: number): string => `00000000-0000-7000-8000-0000000a9${String(n).padStart(3, '0')}`;

const agentOf = (n: number, role: PartyInput['role']): PartyInput => ({
  id: agentId(n),
  role,
  name: AGENTS[n]!,
  email: `${AGENTS[n]!.split(' ')[1]!.toLowerCase()}@agents.example`,
  phone: `920-555-01${80 + n}`,
});

/** All agents whom the firm knows, as contacts. */
export const agents = () =>
  AGENTS.map((_, n) => agentOf(n, 'listing_agent')).map(({ id, name = '', email, phone }) => ({ id, name, email, phone }));

const clientOf = (n: number, second: boolean, newId: () => string): PartyInput => {
  const first = FIRST[(n * 7 + (second ? 11 : 0)) % FIRST.length]!;
  const name = `${first} ${LAST[(n * 13 + Math.floor(n / LAST.length)) % LAST.length]!}`;
  return { id: newId(), role: 'client', name, email: email(name, n), phone: phone(n) };
};

/** Caller number `n`: most buy and have an agent; a fifth has the own house looked at before selling it. */
export function callerOf(n: number, chance: Chance, newId: () => string, wish: { preListing?: boolean; name?: string } = {}): Caller {
  const preListing = wish.preListing ?? chance.odds(0.2);
  const one = clientOf(n, false, newId);
  const first = wish.name ? { ...one, name: wish.name, email: email(wish.name, n) } : one;
  const clients = wish.name || !chance.odds(0.25) ? [first] : [first, clientOf(n, true, newId)];
  const agent = chance.between(0, AGENTS.length - 1);
  const other = (agent + 3) % AGENTS.length;
  const around: PartyInput[] = preListing
    ? [agentOf(agent, 'listing_agent')]
    : [agentOf(agent, 'buyers_agent'), agentOf(other, 'listing_agent')];
  const may = !preListing && chance.odds(0.5);
  const consented = around.map((party) => (party.role === 'buyers_agent' && may ? { ...party, mayReceiveReport: true } : party));
  const payer: PartyInput = { id: first.id, role: 'payer' };
  return { parties: [...clients, ...consented, payer], clients, preListing, agent: around.at(-1)!.name!, payerId: first.id };
}
