// What may not be a place: 0, 0 is what a missing place looks like.
export const isNowhere = ({ lat, lon }: { lat: number; lon: number }): boolean => Math.abs(lat) < 0.01 && Math.abs(lon) < 0.01;
