// The ledger as a plain-text double-entry journal, in the format of hledger's manual (journal format, https://hledger.org/hledger.html#journal).

export type JournalAccount = { code: string; name: string; kind: string };
export type JournalEntry = {
  id: string;
  kind: string;
  happenedOn: string;
  realOn: string | null;
  memo: string;
  lines: readonly { account: string; cents: number; jobNumber?: number | null }[];
};

const TOP: Record<string, string> = { asset: 'assets', liability: 'liabilities', equity: 'equity', income: 'income', expense: 'expenses' };
/** hledger's account types: Asset, Liability, Equity, Revenue, eXpense. */
const TYPE: Record<string, string> = { asset: 'A', liability: 'L', equity: 'E', income: 'R', expense: 'X' };

/** One line that no comment sign, tab or line break ends early; ';' begins a comment and two blanks end a name. */
const plain = (text: string): string =>
  text
    .replaceAll(/[\s\p{Cc}]+/gu, ' ')
    .replaceAll(';', ',')
    .replaceAll('|', '/')
    .trim();

/** 'assets:bank'. */
export const journalName = ({ code, kind }: JournalAccount): string => `${TOP[kind] ?? kind}:${code}`;

const dollars = (cents: number): string => {
  const size = String(Math.abs(cents)).padStart(3, '0');
  return `${cents < 0 ? '-' : ''}$${size.slice(0, -2)}.${size.slice(-2)}`;
};

/** Accounts, then every entry in the order given: its day, what it was, its id and kind as tags, and its lines. Amounts in US dollars. */
export function journalText(accounts: readonly JournalAccount[], entries: readonly JournalEntry[]): string {
  const names = new Map(accounts.map((account) => [account.code, journalName(account)]));
  const heads = accounts.map(
    (account) => `account ${journalName(account)}  ; type: ${TYPE[account.kind] ?? 'X'}, name: ${plain(account.name).replaceAll(',', ' ')}`,
  );
  const blocks = entries.map((entry) => {
    const real = entry.realOn === null ? '' : `, real-day: ${entry.realOn}`;
    const lines = entry.lines.map(
      ({ account, cents, jobNumber }) =>
        `    ${names.get(account) ?? account}  ${dollars(cents)}${jobNumber ? `  ; job: ${jobNumber}` : ''}`,
    );
    return [`${entry.happenedOn} * ${plain(entry.memo)}  ; id: ${entry.id}, kind: ${entry.kind}${real}`, ...lines].join('\n');
  });
  return `${['commodity $1000.00', '', ...heads, '', blocks.join('\n\n')].join('\n')}\n`;
}
