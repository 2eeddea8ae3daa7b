// Alerts the next person on call of a danger that nobody has yet; looked at every half minute.
import { alertOnCall } from '@backsight/usecases/callbacks/alertOnCall';
import type { Job } from '../http/services.ts';

export const onCall: Job = { name: 'alerts of danger', everyMs: 30_000, run: (services) => alertOnCall(services) };
