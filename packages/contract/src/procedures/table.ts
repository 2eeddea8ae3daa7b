// A revision as a paper and as a table; a firm's own steps out of a table.
import { z } from 'zod';
import { id, idParams, route } from '../route.ts';

const area = 'procedures';
const EDITORS = ['owner', 'lead_inspector'] as const;
const ONE = '/api/revisions/:id';
/** Room for a file that is far too large, so that the answer can say so. */
const BODY_LIMIT = 16_000_000;
const body = z.strictObject({ text: z.string().min(1) });

export const tableCheck = z.strictObject({
  lines: z.int(),
  steps: z.array(z.strictObject({ line: z.int(), key: z.string(), title: z.string(), does: z.enum(['adds', 'changes', 'same']) })),
  /** `stops`: nothing is taken in before it is put right; else it stands only in the way of approval. */
  problems: z.array(z.strictObject({ line: z.int(), column: z.string().nullable(), text: z.string(), stops: z.boolean() })),
});
export type TableCheck = z.output<typeof tableCheck>;

export const procedureTableRoutes = {
  paper: route({
    method: 'GET',
    path: `${ONE}/paper.pdf`,
    area,
    summary: 'A revision as a PDF',
    who: 'signed_in',
    of: 'everybody',
    params: idParams,
    reply: z.unknown(),
  }),
  table: route({
    method: 'GET',
    path: `${ONE}/table.csv`,
    area,
    summary: 'The steps of a revision as comma-separated text (RFC 4180)',
    who: 'signed_in',
    of: 'everybody',
    params: idParams,
    reply: z.unknown(),
  }),
  check: route({
    method: 'POST',
    path: `${ONE}/table-check`,
    area,
    summary: 'What taking a table of steps into a draft would do, every problem by line; changes nothing',
    who: EDITORS,
    params: idParams,
    body,
    reply: tableCheck,
    bodyLimit: BODY_LIMIT,
  }),
  takeIn: route({
    method: 'PUT',
    path: `${ONE}/table`,
    area,
    summary: 'Take a table of steps into a draft, as a whole or not at all',
    who: EDITORS,
    edits: true,
    params: idParams,
    body,
    reply: z.strictObject({ id, version: z.int(), steps: z.int() }),
    bodyLimit: BODY_LIMIT,
  }),
};
