// Callbacks as a table: facts for the desk; opinions and money only for those who may see them, and only when they say so.
import { mayFind } from '@backsight/domain/callbacks/find';
import { CAUSES, KINDS, SPEAKERS, STATES } from '@backsight/domain/callbacks/words';
import { incurred } from '@backsight/domain/callbacks/money';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { csvText, type Cell } from '@backsight/documents/csv';
import { tableRows, type TableRow } from '@backsight/store/callbacks/find';
import type { Reader } from '@backsight/store/database';
import { wantedOf, type FindInput } from './steps/wanted.ts';

type Column = readonly [head: string, cell: (row: TableRow) => Cell];
const dollars = (cents: number): Cell => (cents / 100).toFixed(2);

const FACTS: readonly Column[] = [
  ['number', (c) => c.number],
  ['kind', (c) => KINDS[c.kind]],
  ['state', (c) => STATES[c.state]],
  ['danger', (c) => (c.safety ? 'yes' : 'no')],
  ['received on', (c) => c.received],
  ['who speaks', (c) => SPEAKERS[c.speaker]],
  ['name', (c) => c.party],
  ['system', (c) => c.system],
  ['place', (c) => c.place],
  ['words', (c) => c.words],
  ['job', (c) => c.jobNumber],
  ['inspected on', (c) => c.inspectedOn],
  ['pair', (c) => c.pair],
  ['address', (c) => c.address],
  ['town', (c) => c.town],
];
const OPINIONS: readonly Column[] = [
  ['cause', (c) => (c.cause === null ? null : (CAUSES[c.cause as keyof typeof CAUSES] ?? c.cause))],
  ['traced step', (c) => c.step],
  ['step key', (c) => c.stepKey],
  ['revision', (c) => c.revision],
  ['reasons', (c) => c.reasons],
  ['concluded by', (c) => c.concludedBy],
];
const MONEY: readonly Column[] = [
  ['paid', (c) => dollars(c.paidCents)],
  ['set aside', (c) => dollars(c.reservedCents)],
  ['recovered', (c) => dollars(c.recoveredCents)],
  ['incurred', (c) => dollars(incurred(c))],
];

/** All that fit as comma-separated text (RFC 4180), newest first; amounts in dollars. */
export async function exportCallbacks(reader: Reader, input: FindInput & { opinions: boolean; money: boolean }): Promise<Outcome<string>> {
  const may = mayFind(input.roles, input.find, input);
  if (!may.ok) return may;
  const columns = [...FACTS, ...(input.opinions ? OPINIONS : []), ...(input.money ? MONEY : [])];
  const rows = await tableRows(reader, wantedOf(input));
  return accept(csvText([columns.map(([head]) => head), ...rows.map((row) => columns.map(([, cell]) => cell(row)))]));
}
