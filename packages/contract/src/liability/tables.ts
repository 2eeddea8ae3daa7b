// Tables and files of the liability pages.
import { z } from 'zod';
import { route } from '../route.ts';

const JUDGES = ['owner', 'lead_inspector'] as const;

const table = { method: 'GET', area: 'liability', who: JUDGES, reply: z.unknown() } as const;

export const exportRoutes = {
  transactions: route({ ...table, path: '/api/liability/transactions.csv', summary: 'Every entry of money about callbacks' }),
  exposure: route({
    ...table,
    path: '/api/liability/exposure.csv',
    summary: 'Jobs, fees, callbacks and their money by month of inspection',
  }),
  quarter: route({
    ...table,
    path: '/api/liability/quarter.pdf',
    who: ['owner'],
    summary: 'One quarter on paper: money, callbacks, decisions, development, steps, changes, what closes, cautions',
    query: z.strictObject({ quarter: z.string().regex(/^20\d\d-Q[1-4]$/, 'Give a quarter as 2026-Q3.') }),
  }),
  extract: route({
    ...table,
    path: '/api/liability/extract.zip',
    who: ['owner'],
    summary:
      'Data for an actuary: triangles by month, entries of money, callbacks, exposure, and what each column means; no names, no opinions',
  }),
};
