// Erases key-box and alarm codes once no visit needs them, every ten minutes.
import { forgetOldCodes } from '@backsight/usecases/jobs/access';
import type { Job } from '../http/services.ts';

export const codes: Job = { name: 'erase codes of houses', everyMs: 600_000, run: (services) => forgetOldCodes(services) };
