// The chart of accounts, and entries that the owner writes by hand.
import { codeOf, decideHandEntry, type AccountKind, type HandLine } from '@backsight/domain/fees/books';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { listAccounts, renameAccount, saveAccount } from '@backsight/store/fees/books';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act } from '../run.ts';
import { postEntry } from './steps/post.ts';

/** Refusal: account-known. */
export const addAccount: Act<{ name: string; kind: AccountKind }, { code: string }> = {
  operation: 'fees.add_account',
  run: async (work, { name, kind }) => {
    const code = codeOf(name);
    const known = await listAccounts(work.tx);
    if (code === '' || known.some((one) => one.code === code || one.name.toLowerCase() === name.toLowerCase()))
      return refuse('account-known', {}, 'name');
    await saveAccount(work.tx, { code, name, kind });
    await work.did('firm', FIRM_THING, { account: code, kind });
    return accept({ code });
  },
};

/** The code stays, so that entries of before stay with the account. */
export const nameAccount: Act<{ code: string; name: string }, { code: string }> = {
  operation: 'fees.name_account',
  run: async (work, { code, name }) => {
    const others = (await listAccounts(work.tx)).filter((one) => one.code !== code);
    if (others.some((one) => one.name.toLowerCase() === name.toLowerCase())) return refuse('account-known', {}, 'name');
    if (!(await renameAccount(work.tx, code, name))) return refuse('not-found', { thing: 'account' });
    await work.did('firm', FIRM_THING, { account: code });
    return accept({ code });
  },
};

type HandEntry = { id: string; happenedOn: string; memo: string; lines: readonly HandLine[] };

/** Refusals: entry-ahead, entry-lines, account-unknown, account-kept, entry-off. */
export const enterByHand: Act<HandEntry, { id: string }> = {
  operation: 'fees.journal',
  run: async (work, { id, happenedOn, memo, lines }) => {
    const known = (await listAccounts(work.tx)).map(({ code }) => code);
    const decided = decideHandEntry(lines, known, { happenedOn, today: (await localDay(work.tx, work.now)).today });
    if (!decided.ok) return decided;
    await postEntry(work, { id, kind: 'journal', happenedOn, memo, lines });
    await work.did('ledger-entry', id, {
      kind: 'journal',
      lines: lines.length,
      cents: lines.reduce((sum, { cents }) => sum + Math.max(0, cents), 0),
    });
    return accept({ id });
  },
};
