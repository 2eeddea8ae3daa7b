// The published standard of the state in which the firm works.
import type { Standard } from '@backsight/domain/procedures/coverage';
import { STANDARDS } from '@backsight/domain/procedures/data/standards';
import type { Reader } from '@backsight/store/database';
import { listOffices } from '@backsight/store/firm/settings';

/** The standard on file of the first office that has one; null when no office's state is on file. */
export async function ownStandard(reader: Reader): Promise<Standard | null> {
  const codes = (await listOffices(reader)).map(({ jurisdiction }) => jurisdiction);
  return codes.map((code) => STANDARDS.find(({ jurisdiction }) => jurisdiction === code)).find((one) => one !== undefined) ?? null;
}
