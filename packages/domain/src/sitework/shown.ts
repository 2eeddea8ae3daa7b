// A step of a package as screens show it: the same whether the service or the phone has put the package together.
import type { Step } from '../procedures/step.ts';

export type IssuedTo = {
  packageId: string;
  itemId: string | null;
  revisionId: string;
  revisionNumber: number;
  procedureTitle: string;
  system: string;
  position: number;
  partnerCheck: boolean;
  because: string;
};

/** The words of a step with where it stands; rules and qualifications stay behind. */
export function shownStep(step: Step, at: IssuedTo) {
  const { key, derivedFrom: _derivedFrom, applies: _applies, qualification: _qualification, alsoMeets: _alsoMeets, ...shown } = step;
  return {
    ...shown,
    place: shown.place ?? null,
    caution: shown.caution ?? null,
    sequence: shown.sequence ?? null,
    onePersonOnly: shown.onePersonOnly ?? false,
    stepKey: key,
    ...at,
  };
}
