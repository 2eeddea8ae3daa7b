// Where an agreement text goes against a row of a state's rule pack.
import { rowsWith, type RuleRow } from '../shared/rulePack.ts';
import type { TextContent } from './text.ts';
import { fieldsOf } from './textChecks.ts';

/** `rowKey` is the row that the text goes against. */
export type RuleBreak = { rowKey: string; sentence: string };

const CLAIMS_LAW = /\brequired by (?:the |state |our |wisconsin )*law\b|\bthe law requires\b/i;

const broken = (row: RuleRow, sentence: string): RuleBreak => ({ rowKey: row.key, sentence: `${sentence} ${row.words} (${row.citation})` });

const capBreaks = ({ limits: { cap } }: TextContent, rows: readonly RuleRow[]): RuleBreak[] =>
  cap.kind === 'none'
    ? []
    : [
        ...rowsWith(rows, 'cap_barred').map((row) => broken(row, 'It limits what the firm pays.')),
        ...rowsWith(rows, 'cap_floor')
          .filter(({ effect }) => cap.kind === 'factor' || cap.cents < effect.cents)
          .map((row) =>
            broken(row, cap.kind === 'factor' ? 'A limit by the fee may fall below the lowest allowed.' : 'The limit is too low.'),
          ),
      ];

const agreementBreaks = ({ clauses }: TextContent, rows: readonly RuleRow[]): RuleBreak[] => {
  const fields = fieldsOf(clauses);
  const missing = rowsWith(rows, 'written_first').flatMap((row) => {
    const absent = row.effect.fields.filter((name) => !fields.includes(name));
    return absent.length === 0 ? [] : [broken(row, `It does not say ${absent.map((name) => `{{${name}}}`).join(' and ')}.`)];
  });
  const clausesMissing = rowsWith(rows, 'clause_needed')
    .filter(({ effect }) => !clauses.some(({ key }) => key === effect.clause))
    .map((row) => broken(row, `It has no clause "${row.effect.clause}".`));
  return [...missing, ...clausesMissing];
};

/** Where nothing was found, no law may be claimed for the firm's own policy. */
const policyBreaks = ({ clauses }: TextContent, rows: readonly RuleRow[]): RuleBreak[] => {
  const policy = rows.find(({ topic, certainty }) => topic === 'agreement' && certainty === 'none');
  return policy && clauses.some(({ body }) => CLAIMS_LAW.test(body)) ? [broken(policy, 'It says that the law requires it.')] : [];
};

/** Every row that the text goes against; none when it keeps within them. `rows` are those that hold on the day. */
export const textBreaks = (text: TextContent, rows: readonly RuleRow[]): RuleBreak[] => [
  ...capBreaks(text, rows),
  ...(text.limits.claimMonths === null
    ? []
    : rowsWith(rows, 'shorter_time_barred').map((row) => broken(row, 'It shortens the time to claim.'))),
  ...agreementBreaks(text, rows),
  ...policyBreaks(text, rows),
];
