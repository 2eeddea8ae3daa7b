// Miles for people, kilometers for the service.
const KM_PER_MILE = 1.609344;

const milesOf = (km: number): number => km / KM_PER_MILE;
export const kmOf = (miles: number): number => miles * KM_PER_MILE;

/** '6.2 mi', '40 mi': one decimal below 10. */
export const milesText = (km: number): string => {
  const miles = milesOf(km);
  return `${miles < 10 ? miles.toFixed(1) : Math.round(miles)} mi`;
};

/** '24 mph' of km/h. */
export const speedText = (kmh: number): string => `${Math.round(milesOf(kmh))} mph`;
