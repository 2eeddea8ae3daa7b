// Reminds the owners of deadlines of legal papers; looked at every half hour.
import { remindOfPapers } from '@backsight/usecases/callbacks/remindOfPapers';
import type { Job } from '../http/services.ts';

export const papers: Job = { name: 'deadlines of legal papers', everyMs: 1_800_000, run: (services) => remindOfPapers(services) };
