// Tables and files that leave the liability pages.
import type { FastifyInstance } from 'fastify';
import { exportRoutes as routes } from '@backsight/contract/liability/tables';
import { accept } from '@backsight/domain/shared/outcome';
import { exportExtract } from '@backsight/usecases/liability/export/extract';
import { exposureTable, transactionsTable } from '@backsight/usecases/liability/export/money';
import { quarterReport } from '@backsight/usecases/liability/export/quarterReport';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import { sendPdf } from '../http/pdf.ts';
import type { Services } from '../http/services.ts';
import { mountTable } from '../http/table.ts';

const isOwner = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.includes('owner');

export function liabilityFilesApi(app: FastifyInstance, services: Services): void {
  mountTable(app, services, routes.transactions, async ({ read, actor }) =>
    accept(await transactionsTable(read, { seeOwnerOnly: isOwner(actor) })),
  );
  mountTable(app, services, routes.exposure, async ({ read }) => accept(await exposureTable(read)));
  mount(app, services, routes.quarter, ({ read, query, now, reply }) => sendPdf(reply, quarterReport(read, { ...query, now })));
  mount(app, services, routes.extract, async ({ read, now, reply }) => {
    const { name, bytes } = await exportExtract(read, now);
    reply.type('application/zip').headers({ 'content-disposition': `attachment; filename="${name}"`, 'cache-control': 'no-store' });
    return Buffer.from(bytes);
  });
}
