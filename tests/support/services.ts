// The parts of the API over a test's service.
import { codeDigest } from '@backsight/usecases/firm/setUp';
import { readConfig } from '../../apps/api/src/config.ts';
import { createPlanner } from '../../apps/api/src/jobs/planner.ts';
import type { Services } from '../../apps/api/src/http/services.ts';
import { STARTER } from '../../prisma/seed/starter/starter.ts';
import type { TestService } from './database.ts';

/** The code with which a test's service lets itself be set up. */
export const SET_UP_CODE = 'birch-heron-4821';

/** The parts of the API over a test's service. */
export function servicesOf(service: TestService, settings: Record<string, string> = {}): Services {
  const config = readConfig(
    { DEMO: '0', LOG_LEVEL: 'silent', SECOND_FACTOR: 'nobody', IDLE_MINUTES: '720', DATA_DIR: '/nowhere', ...settings },
    '/',
  );
  return {
    database: service.database,
    clock: () => service.clock.now,
    newId: service.newId,
    runner: service.runner,
    config,
    version: '0.0.0',
    secretKey: Buffer.alloc(32, 7),
    planner: plannerOf(service),
    setUp: { codeSha256: codeDigest(SET_UP_CODE), starter: STARTER },
  };
}

/** The planner over a test's service; its thread runs the sources. The caller closes it. */
export const plannerOf = (service: TestService, settings: Partial<Parameters<typeof createPlanner>[1]> = {}) =>
  createPlanner(
    { runner: service.runner, database: service.database, clock: () => service.clock.now },
    { workerFile: new URL('./plannerThread.mjs', import.meta.url), ...settings },
  );
