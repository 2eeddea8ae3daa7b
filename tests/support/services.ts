// The parts of the API over a test's service.
import { codeDigest } from '@backsight/usecases/firm/setUp';
import { readConfig } from '../../apps/api/src/config.ts';
import type { Services } from '../../apps/api/src/http/services.ts';
import { STARTER } from '../../prisma/seed/starter/starter.ts';
import type { TestService } from './database.ts';

/** The code with which a test's service lets itself be set up. */
export const SET_UP_CODE = 'birch-heron-4821';

/** The parts of the API over a test's service. */
export function servicesOf(service: TestService, settings: Record<string, string> = {}): Services {
  const config = readConfig({ DEMO: '0', LOG_LEVEL: 'silent', DATA_DIR: '/nowhere', ...settings }, '/');
  return {
    database: service.database,
    clock: () => service.clock.now,
    newId: service.newId,
    runner: service.runner,
    config,
    version: '0.0.0',
    setUp: { codeSha256: codeDigest(SET_UP_CODE), starter: STARTER },
  };
}
