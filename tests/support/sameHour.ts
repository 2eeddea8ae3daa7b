// Browser tests happen at ten in the morning, whatever the hour: a visit "in an hour" is today's, and nobody works past midnight.
// The service and the test live in this process, the pages in the browser; both get the same clock, which goes on from there.
import { DateTime } from 'luxon';

/** Runs here and in pages: everything that asks for the time hears one so many milliseconds later. */
export const setClock = (ahead: number): void => {
  const Real = Date;
  globalThis.Date = class extends Real {
    constructor(...given: []) {
      super(...(given.length > 0 ? given : ([Real.now() + ahead] as unknown as [])));
    }
    static override now = (): number => Real.now() + ahead;
  } as DateConstructor;
};

declare global {
  /** Milliseconds from the real time to that of the browser tests in this process; undefined elsewhere. */
  var hourMoved: number | undefined;
}

/** Call once before the tests of a file: the process of several files is moved once. */
export function moveToMorning(): void {
  if (globalThis.hourMoved !== undefined) return;
  const now = DateTime.now().setZone('America/Chicago');
  const morning = now.set({ hour: 10, minute: 0, second: 0, millisecond: 0 });
  // Never back: the browser itself drops cookies that end before its own time.
  globalThis.hourMoved = (morning < now ? morning.plus({ days: 1 }) : morning).toMillis() - now.toMillis();
  setClock(globalThis.hourMoved);
}
