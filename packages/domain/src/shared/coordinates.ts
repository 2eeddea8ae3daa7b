// Coordinates as people paste them: decimal degrees, or degrees with minutes and seconds, with or without the letters of the sky.
export type Coordinates = { lat: number; lon: number };

/** Degrees, then optional minutes and seconds; a letter before or behind. */
const PART =
  /([NSEW])?\s{0,3}(-?\d{1,3}(?:\.\d+)?)\s{0,3}(?:°\s{0,3}(?:(\d{1,2}(?:\.\d+)?)\s{0,3}['′’]\s{0,3})?(?:(\d{1,2}(?:\.\d+)?)\s{0,3}(?:["″”]|''))?)?\s{0,3}([NSEW])?/giu;

type Part = { degrees: number; letter: string };

function partOf([, before, degrees, minutes = '0', seconds = '0', after]: RegExpMatchArray): Part {
  const size = Math.abs(Number(degrees)) + Number(minutes) / 60 + Number(seconds) / 3600;
  const letter = (before ?? after ?? '').toUpperCase();
  const negative = degrees!.startsWith('-') || letter === 'S' || letter === 'W';
  return { degrees: negative ? -size : size, letter };
}

const isLon = ({ letter }: Part): boolean => letter === 'E' || letter === 'W';

/**
 * Latitude and longitude of a pasted text, rounded to 6 decimals; null when it is not two coordinates in range. Without
 * letters the latitude comes first. '44.03, -88.54', '44.03N 88.54W' and 44°1'48"N 88°32'24"W are read.
 */
export function readCoordinates(text: string): Coordinates | null {
  const matches = [...text.trim().matchAll(PART)];
  const rest = text.replace(PART, '').replace(/[\s,;()]/gu, '');
  if (matches.length !== 2 || rest !== '') return null;
  const [one, two] = matches.map(partOf) as [Part, Part];
  if (one.letter !== '' && two.letter !== '' && isLon(one) === isLon(two)) return null;
  const [lat, lon] = isLon(one) || two.letter === 'N' || two.letter === 'S' ? [two, one] : [one, two];
  const inRange = Math.abs(lat.degrees) <= 90 && Math.abs(lon.degrees) <= 180;
  return inRange ? { lat: Number(lat.degrees.toFixed(6)), lon: Number(lon.degrees.toFixed(6)) } : null;
}
