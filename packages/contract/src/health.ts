// Health of the service.
import { z } from 'zod';
import { route } from './route.ts';

export const healthRoutes = {
  health: route({
    method: 'GET',
    path: '/api/health',
    area: 'health',
    summary: 'Health of the service; 503 where it should be asked nothing',
    who: 'anyone',
    unwell: true,
    reply: z.strictObject({
      status: z.enum(['well', 'unwell', 'stopping']),
      version: z.string(),
      schema: z.string().nullable(),
      database: z.enum(['reachable', 'not reachable']),
      guards: z.enum(['role', 'triggers only']),
    }),
  }),
};
