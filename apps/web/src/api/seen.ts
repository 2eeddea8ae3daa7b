// Which version of a thing is on the screen: an act on it names that one, so that nobody acts on what somebody else has changed.

const versions = new Map<string, number>();

/** What was read last is what the page shows. */
export const noteSeen = (id: string, version: number): void => void versions.set(id, version);

/** undefined where the thing was never shown here. */
export const seenVersion = (id: string): number | undefined => versions.get(id);
