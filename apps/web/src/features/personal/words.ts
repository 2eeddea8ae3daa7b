// Kinds of records as this screen calls them.
import type { DueRecords } from '@backsight/contract/personal';

export const RECORD_WORDS: Readonly<Record<DueRecords['kind'], string>> = {
  job: 'file of the job',
  mail: 'mail and calls',
  callback: 'callbacks',
  inquiry: 'price asked',
  staff: 'papers of a former person',
};
