// Files of everything of one job.
import type { FastifyInstance } from 'fastify';
import { jobFileRoutes as routes } from '@backsight/contract/jobs/files';
import { readFileItems, readJobFile, readJobFiles, reviewJobFile } from '@backsight/usecases/jobs/jobFiles';
import { makeJobFile } from '@backsight/usecases/jobs/makeFile';
import { mount } from '../http/mount.ts';
import { sendPdf } from '../http/pdf.ts';
import type { Services } from '../http/services.ts';

export function jobFilesApi(app: FastifyInstance, services: Services): void {
  const directory = services.config.dataDir;
  mount(app, services, routes.list, ({ read, params }) => readJobFiles(read, params.id));
  mount(app, services, routes.items, ({ read, params }) => readFileItems(read, params.id));
  mount(app, services, routes.review, ({ act, params, body }) => act(reviewJobFile, { ...body, id: params.id }));
  mount(app, services, routes.make, ({ act, params, body }) => act(makeJobFile, { ...body, jobId: params.id, directory }));
  mount(app, services, routes.file, ({ read, params, actor, reply }) =>
    sendPdf(reply, readJobFile(read, { id: params.id, isOwner: actor.kind === 'person' && actor.roles.includes('owner'), directory })),
  );
}
