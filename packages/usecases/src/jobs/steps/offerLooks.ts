// Offers with a new job what the season forbids on its day.
import { NO_RULES } from '@backsight/domain/jobs/deskRules';
import { laterLooksOf } from '@backsight/domain/jobs/laterLooks';
import type { NamedContext } from '@backsight/domain/shared/evaluate';
import type { Catalog } from '@backsight/store/jobs/catalog';
import { saveLooks } from '@backsight/store/jobs/laterLooks';
import type { Work } from '../../run.ts';

/** The looks of a house on a day, under the rules in force. */
export const looksFor = (catalog: Catalog, context: NamedContext) =>
  laterLooksOf((catalog.rules?.body.desk ?? NO_RULES).laterLooks, context);

export const offerLooks = (work: Work, jobId: string, catalog: Catalog, context: NamedContext): Promise<void> =>
  saveLooks(work.tx, jobId, looksFor(catalog, context), { newId: work.newId, at: work.now });
