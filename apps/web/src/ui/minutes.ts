// Spans of minutes in words.

/** '38 min', '1 h 5 min', '-12 min'. */
export function minutesText(minutes: number): string {
  const whole = Math.round(Math.abs(minutes));
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  const text = hours === 0 ? `${rest} min` : rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
  return minutes < 0 && whole > 0 ? `-${text}` : text;
}

/** '0:42', '3:00'. */
export const minutesSeconds = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${String(Math.floor(seconds) % 60).padStart(2, '0')}`;
