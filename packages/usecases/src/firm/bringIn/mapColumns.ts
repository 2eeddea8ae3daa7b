// Says which column of a spreadsheet is which field and how it writes days and amounts; then the whole of it is looked through.
import { fieldsOf, missingFields, type Columns, type RecordKind } from '@backsight/domain/firm/records/fields';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { setBringIn } from '@backsight/store/firm/bringIns';
import type { Act, Work } from '../../run.ts';
import { lockInState } from '../steps/bringIn/inState.ts';
import { readKept, type Mapping } from '../steps/bringIn/stored.ts';

type Input = { id: string; version: number; mapping: Mapping };

export const mapColumns: Act<Input, { id: string; version: number }> = { operation: 'firm.bring-in-map', run: map };

async function map(work: Work, { id, version, mapping }: Input): Promise<Outcome<{ id: string; version: number }>> {
  const found = await lockInState(work.tx, { id, version, states: ['to_map', 'checked'] });
  if (!found.ok) return found;
  const { kind } = found.value;
  const right = columnsFit(kind, readKept(found.value).heads, mapping.columns);
  if (!right.ok) return right;
  const next = await setBringIn(work.tx, id, { state: 'checking', mapping });
  await work.did('spreadsheet', id, { kind, fields: Object.keys(mapping.columns).length });
  return accept({ id, version: next });
}

function columnsFit(kind: RecordKind, heads: readonly string[], columns: Columns): Outcome<null> {
  const labels = new Map(fieldsOf(kind).map(({ key, label }) => [key, label]));
  for (const [key, at] of Object.entries(columns)) {
    if (!labels.has(key)) return refuse('sheet-field-none', { field: key }, `columns.${key}`);
    if (at >= heads.length) return refuse('sheet-column-none', { column: at + 1 }, `columns.${key}`);
    const others = Object.keys(columns).filter((other) => columns[other] === at);
    if (others.length > 1)
      return refuse(
        'sheet-column-twice',
        { column: heads[at]!, fields: others.map((one) => labels.get(one) ?? one).join(' and ') },
        `columns.${key}`,
      );
  }
  const missing = missingFields(kind, columns);
  return missing.length > 0 ? refuse('sheet-columns-missing', { fields: missing }, 'columns') : accept(null);
}
