// Days counted, so that one less another is how many lie between.

/** Days since 1970-01-01 of an ISO day. */
export const dayNumber = (day: string): number => Math.round(Date.parse(`${day}T00:00:00Z`) / 86_400_000);
