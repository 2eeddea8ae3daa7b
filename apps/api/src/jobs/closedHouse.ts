// Asks to close houses before a radon monitor is placed; looked at every ten minutes.
import { askToCloseHouses } from '@backsight/usecases/jobs/askToClose';
import type { Job } from '../http/services.ts';

export const closedHouse: Job = { name: 'ask to close houses', everyMs: 600_000, run: (services) => askToCloseHouses(services) };
