// Names of kinds of visits and of systems, as sentences begin with them.
const first = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const KINDS: Record<string, string> = {
  reinspection: 'Re-inspection',
  radon_pickup: 'Radon pick-up',
  roof_relook: 'Roof re-look',
  exterior_relook: 'Exterior re-look',
  sample_drop: 'Sample to the laboratory',
};

export const kindName = (kind: string): string => KINDS[kind] ?? first(kind.replaceAll('_', ' '));

/** A visit for one thing only, such as a pick-up: what was ordered besides is not done then. */
export const forOneThing = (kind: string): boolean => ['radon_pickup', 'roof_relook', 'exterior_relook', 'sample_drop'].includes(kind);
