// Comma-separated text as spreadsheets write it (RFC 4180): what is read, and what is said about what cannot be.
import { describe, expect, it } from 'vitest';
import { csvText } from '@backsight/documents/csv';
import { readCsv } from '@backsight/documents/csvRead';

const cells = (text: string) => readCsv(text).rows.map((row) => row.cells);

describe('reading', () => {
  it.each<[string, string, string[][]]>([
    [
      'RFC 4180, 2.1: lines end with CRLF',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'RFC 4180, 2.2: the last line may have no end',
      'aaa,bbb\r\nzzz,yyy',
      [
        ['aaa', 'bbb'],
        ['zzz', 'yyy'],
      ],
    ],
    ['RFC 4180, 2.4: blanks belong to the cell', 'a , b', [['a ', ' b']]],
    [
      'RFC 4180, 2.6: breaks and commas within quotation marks',
      '"aaa","b\r\nbb","c,c"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'c,c'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['RFC 4180, 2.7: a quotation mark twice', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
    [
      'a byte order mark',
      '\uFEFFKey,Title\r\na,b',
      [
        ['Key', 'Title'],
        ['a', 'b'],
      ],
    ],
    ['LF, and CR as old machines wrote it', 'a\nb\rc', [['a'], ['b'], ['c']]],
    [
      'blank lines, and lines of commas only',
      'a,b\n\n,\n  , \nc,d\n',
      [
        ['a', 'b'],
        ['c', 'd'],
      ],
    ],
    [
      'empty cells',
      'a,,\n,,b',
      [
        ['a', '', ''],
        ['', '', 'b'],
      ],
    ],
    ['the apostrophe that keeps a cell from being run', "'=1+1,'-5,it's", [['=1+1', '-5', "it's"]]],
    ['nothing', '', []],
  ])('%s', (_name, text, rows) => expect(cells(text)).toEqual(rows));
  it('counts lines through quoted cells', () => {
    const { rows } = readCsv('a,b\r\n"x\r\ny\nz",1\r\nlast,2');
    expect(rows.map(({ line }) => line)).toEqual([1, 2, 5]);
  });
  it.each([
    ['a cell that never ends', 'a,b\n"c,d\ne,f', 2, 'never ends'],
    ['a quotation mark inside a plain cell', 'a,b\nc"c,d', 2, 'inside a cell'],
    ['words after a quoted cell', 'a\nb\n"c" d,e', 3, 'more than a comma'],
  ])('says where: %s', (_name, text, line, words) => {
    const { problems } = readCsv(text);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ line });
    expect(problems[0]!.text).toContain(words);
  });
  it('reads back what was written, formulas and all', () => {
    const rows = [
      ['=HYPERLINK("http://a.example")', '+1', '-1', '@x', '\tt'],
      ['"quoted"', 'two\nlines', 'three\r\nlines', 'a,b', "'plain"],
    ];
    expect(cells(csvText(rows))).toEqual(rows);
    expect(csvText(rows)).toContain(`"'=HYPERLINK(""http://a.example"")"`);
  });
  it('reads ten megabytes in a few seconds', () => {
    const text = 'x,"y ""z"" y",w\r\n'.repeat(650_000);
    const started = process.cpuUsage();
    expect(readCsv(text).rows).toHaveLength(650_000);
    expect(process.cpuUsage(started).user / 1000, 'milliseconds of the processor').toBeLessThan(10_000);
  });
});

// OWASP, "CSV Injection": = + - @, tab, carriage return, line feed, and their wide forms, at the beginning of a cell.
describe('what a spreadsheet would run', () => {
  const SIGNS = ['=', '+', '-', '@', '\t', '\r', '\n', '\uff1d', '\uff0b', '\uff0d', '\uff20'];
  const typed = [
    ...SIGNS.map((sign) => `${sign}1+1|' /C calc'!A0`),
    ...SIGNS.map((sign) => `'${sign}1`),
    "''=1",
    "it's",
    "'quoted'",
    '1-1',
    'a=b',
  ];
  it.each(typed.map((text) => [text]))('is text where it is written, and as it was typed where it is read again: %j', (text) => {
    const written = csvText([[text, 'next']]);
    const cell = written.startsWith('"') ? written.slice(1) : written;
    expect(SIGNS.some((sign) => cell.startsWith(sign))).toBe(false);
    expect(cells(written)).toEqual([[text, 'next']]);
  });
  it('is no number of the firm: those stay numbers', () => expect(csvText([[-5, { cents: -1250 }]])).toBe('-5,-12.50\r\n'));
});
