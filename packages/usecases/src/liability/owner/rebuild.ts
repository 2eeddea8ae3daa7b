// The sums that the owner's page reads beside the figures, made anew with them at night.
import { cashHistory } from '@backsight/domain/liability/cash';
import { moneyFlows, rebuildMoney } from '@backsight/store/liability/money';
import { rebuildWeeks } from '@backsight/store/liability/outlook';
import { firstInspection } from '@backsight/store/liability/watch';
import { rebuildWindows } from '@backsight/store/liability/windows';
import type { Tx } from '@backsight/store/database';

/** `until`: the first instant that is not summed; `lastDay`: the ISO day before it. */
export async function rebuildOwner(tx: Tx, until: Date, lastDay: string): Promise<void> {
  await rebuildWindows(tx);
  await rebuildWeeks(tx, until);
  const flows = (await moneyFlows(tx)).filter(({ day }) => day <= lastDay);
  await rebuildMoney(tx, until, cashHistory(flows, await firstInspection(tx), lastDay));
}
