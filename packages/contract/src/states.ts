// Who may do what, where it is the state of a thing that decides and not the role alone; a test tries every row.
import type { RefusalCode } from './problem.ts';

export type StateRow = {
  /** What is so. */
  state: string;
  /** Who is refused although the role is right. */
  refused: string;
  /** `METHOD /path`; under a path: all routes that begin with it. */
  routes: readonly string[] | { under: string };
  code: RefusalCode;
};

export const STATES = {
  ownersAlone: {
    state: 'a callback with a legal paper, or of somebody who was hurt',
    refused: 'lead inspector and office, as if there were none',
    routes: { under: '/api/callbacks/:id' },
    code: 'not-found',
  },
  cancelled: {
    state: 'a job that was cancelled',
    refused: 'everybody',
    routes: ['POST /api/jobs/:id/confirmation', 'POST /api/jobs/:id/parties', 'PUT /api/jobs/:id/cancellation', 'PUT /api/jobs/:id/access'],
    code: 'job-is',
  },
  visitOver: { state: 'a visit that is over', refused: 'its own pair', routes: ['GET /api/visits/:id/way-in'], code: 'codes-not-now' },
  recordOpen: {
    state: 'a site record that is open',
    refused: 'its own pair, lead inspector and owner',
    routes: ['GET /api/records/:id/sealed', 'GET /api/records/:id/paper'],
    code: 'record-not-sealed',
  },
  supplementEarly: {
    state: 'a site record that is open, of which something is added as found later',
    refused: 'its own pair, lead inspector and owner',
    routes: ['POST /api/records/:id/supplements'],
    code: 'supplement-of-open-record',
  },
  recordSealed: {
    state: 'a site record that is sealed',
    refused: 'its own pair',
    routes: ['POST /api/records/:id/items', 'POST /api/records/:id/seal'],
    code: 'record-sealed',
  },
} as const satisfies Record<string, StateRow>;
