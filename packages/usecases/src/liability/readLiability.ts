// The owner's page: paid, set aside, recovered, what is open, and how long claims may still come.
import { claimWindow, isOpen } from '@backsight/domain/liability/claimWindow';
import { readClaimRule } from '@backsight/domain/liability/stored';
import { findFirm } from '@backsight/store/firm';
import {
  claimDays,
  moneyBetween,
  moneyByInspectionMonth,
  openByAge,
  remediesWaiting,
  rulePacks,
  startsDespite,
} from '@backsight/store/liability';
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

/** Jobs whose claim window is still open under the short and the long reading of the rule pack. */
async function windowsOpen(reader: Reader, today: string) {
  const packs = await rulePacks(reader);
  const rules = new Map(packs.map(({ jurisdiction, body }) => [jurisdiction, readClaimRule(body)]));
  let [shortOpen, longOpen, unknown] = [0, 0, 0];
  for (const { jurisdiction, jobs, ...days } of await claimDays(reader)) {
    const rule = rules.get(jurisdiction);
    const window = rule ? claimWindow(rule, { ...days, discoveredOn: null }) : null;
    if (!window) unknown += jobs;
    else {
      if (isOpen(window.shortUntil, today)) shortOpen += jobs;
      if (isOpen(window.longUntil, today)) longOpen += jobs;
    }
  }
  const sources = [...new Set([...rules.values()].flatMap((rule) => rule?.sources ?? []))];
  return { shortOpen, longOpen, unknown, sources };
}
