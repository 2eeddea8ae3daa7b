// The audit trail and its proof.
import type { FastifyInstance } from 'fastify';
import { auditRoutes as routes } from '@backsight/contract/audit';
import { readAudit } from '@backsight/usecases/audit/readAudit';
import { verifyAudit } from '@backsight/usecases/audit/seal';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function auditApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.list, ({ read, query }) => readAudit(read, query));
  mount(app, services, routes.check, ({ read }) => verifyAudit(read));
}
