// Readings that no instrument can give. What is only unusual is recorded as read; this is about typing errors.
import type { EntryEvidence } from './value.ts';

type Bounds = { least?: number; most?: number };

/**
 * By unit. Absolute zero: -273.15 C = -459.67 F (SI Brochure, 9th ed., 2.3.1). A gauge shows at least an empty vessel: -14.7 psi
 * (standard atmosphere 101 325 Pa). Parts per million and percent cannot pass the whole. Wood moisture is held against dry wood and may
 * pass 100 percent (from memory).
 */
const BOUNDS: Record<string, Bounds> = {
  F: { least: -459.67 },
  C: { least: -273.15 },
  psi: { least: -14.7 },
  ppm: { least: 0, most: 1_000_000 },
  '%': { least: 0, most: 100 },
  '% MC': { least: 0, most: 300 },
  '% RH': { least: 0, most: 100 },
  in: { least: 0 },
  ft: { least: 0 },
  'pCi/L': { least: 0 },
  ohm: { least: 0 },
  gpm: { least: 0 },
  ms: { least: 0 },
  s: { least: 0 },
};

const inside = (value: number, { least, most }: Bounds): boolean => value >= (least ?? -Infinity) && value <= (most ?? Infinity);

/** Whether an instrument could show this. Units that are not known here rule nothing out. */
export function isPossible(evidence: EntryEvidence | null): boolean {
  if (evidence?.kind !== 'reading' && evidence?.kind !== 'difference') return true;
  const bounds = BOUNDS[evidence.unit];
  const values = evidence.kind === 'reading' ? [evidence.value] : [evidence.first, evidence.second];
  return bounds === undefined || values.every((value) => inside(value, bounds));
}
