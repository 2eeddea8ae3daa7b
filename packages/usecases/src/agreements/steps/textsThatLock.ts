// The texts whose locked clauses a draft has to keep: the one that it was copied from, and the one in force.
import type { Locking } from '@backsight/domain/agreements/textLife';
import { findText, textInForce, type TextRow } from '@backsight/store/agreements/texts';
import type { Reader } from '@backsight/store/database';

export async function textsThatLock(reader: Reader, draft: Pick<TextRow, 'basedOnId' | 'kind'>, at: Date): Promise<Locking[]> {
  const base = draft.basedOnId === null ? null : await findText(reader, draft.basedOnId);
  return [base, await textInForce(reader, draft.kind, at)].filter((text) => text !== null);
}
