// Places of a house that are looked at for danger before anybody goes there.

export const HAZARD_PLACES = { crawl_space: 'crawl space', attic: 'attic', roof: 'roof', panel: 'electrical panel' } as const;
export type HazardPlace = keyof typeof HAZARD_PLACES;

/** Where a step is done: at a place with a stop list, or elsewhere, where there is none. */
export const STEP_PLACES = { ...HAZARD_PLACES, elsewhere: 'elsewhere' } as const;
export type StepPlace = keyof typeof STEP_PLACES;
