// The owner's page: paid, set aside, recovered, what is open, and how long claims may still come.
import { claimReadings, claimWindow, isOpen } from '@backsight/domain/liability/claimWindow';
import { packOn } from '@backsight/domain/shared/rulePack';
import { findFirm } from '@backsight/store/firm';
import { listRulePacks } from '@backsight/store/firm/rulePacks';
import { claimDays, moneyBetween, moneyByInspectionMonth, openByAge, remediesWaiting, startsDespite } from '@backsight/store/liability';
import type { Reader } from '@backsight/store/database';
import { dayAt } from '../callbacks/steps/day.ts';

/** Everything on one page. `seeOwnerOnly`: whether files for the owner alone are among what waits. */
export async function readLiability(reader: Reader, input: { now: Date; seeOwnerOnly: boolean }) {
  const zone = (await findFirm(reader))?.zone ?? 'UTC';
  const today = dayAt(input.now, zone);
  const [monthStart, yearStart] = [`${today.slice(0, 7)}-01`, `${today.slice(0, 4)}-01-01`];
  const money = {
    month: await moneyBetween(reader, monthStart, today),
    year: await moneyBetween(reader, yearStart, today),
    ever: await moneyBetween(reader, null, null),
  };
  const waiting = await remediesWaiting(reader, input.seeOwnerOnly);
  return {
    today,
    money,
    months: await moneyByInspectionMonth(reader),
    open: await openByAge(reader, input.now),
    waiting: waiting.map((row) => ({ ...row, recordedAt: row.recordedAt.toISOString() })),
    despite: await startsDespite(reader, yearStart),
    windows: await windowsOpen(reader, today),
  };
}

/** Jobs whose claim window is still open under the shortest and the longest reading of the rules of their state on their day. */
async function windowsOpen(reader: Reader, today: string) {
  const packs = await listRulePacks(reader);
  const sources = new Set<string>();
  let [shortOpen, longOpen, unknown] = [0, 0, 0];
  for (const { jurisdiction, jobs, ...days } of await claimDays(reader)) {
    const day = days.inspectedOn ?? today;
    const readings = claimReadings(packOn(packs, jurisdiction, day)?.rows ?? [], day);
    const window = claimWindow(readings, { ...days, discoveredOn: null });
    for (const { source } of readings) sources.add(source);
    if (!window) unknown += jobs;
    else {
      if (isOpen(window.shortUntil, today)) shortOpen += jobs;
      if (isOpen(window.longUntil, today)) longOpen += jobs;
    }
  }
  return { shortOpen, longOpen, unknown, sources: [...sources] };
}
