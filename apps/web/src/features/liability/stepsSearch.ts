// The address of the steps: months of inspection and system. Whatever it says is sent as it is, so that a wrong word is told.
import type { StepsWanted } from '../../api/liabilitySteps.ts';

export function readStepsSearch(raw: Record<string, unknown>): StepsWanted {
  const found = ['from', 'until', 'system'].map((key) => [key, raw[key]] as const);
  return Object.fromEntries(
    found
      .filter(([, value]) => value !== undefined && value !== null && value !== '')
      .map(([key, value]) => [key, String(value).slice(0, 60)]),
  );
}
