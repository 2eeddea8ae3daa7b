// Files as spreadsheets save them: letters, what parts the cells, and RFC 4180 with what people add to it.
import { describe, expect, it } from 'vitest';
import { readCsv } from '@backsight/documents/csvRead';
import { partingOf, sheetText } from '@backsight/documents/sheetText';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const rows = (text: string): string[][] => {
  const { parting, from } = partingOf(text);
  return readCsv(text.slice(from), parting).rows.map(({ cells }) => cells);
};

describe('letters', () => {
  it('are known by their mark, or by what the bytes allow', () => {
    expect(sheetText(bytes('Zoë,1'))).toEqual({ text: 'Zoë,1', letters: 'UTF-8' });
    expect(sheetText(bytes('\uFEFFZoë,1'))).toEqual({ text: 'Zoë,1', letters: 'UTF-8' });
    expect(sheetText(Buffer.from('\uFEFFZoë\t1', 'utf16le'))).toEqual({ text: 'Zoë\t1', letters: 'UTF-16' });
    expect(sheetText(Buffer.from('Name\tOne', 'utf16le'))).toEqual({ text: 'Name\tOne', letters: 'UTF-16' });
    expect(sheetText(Buffer.from('\uFEFFZo\u00eb\t1', 'utf16le').swap16())).toEqual({ text: 'Zoë\t1', letters: 'UTF-16' });
    // 0x80 is the euro sign and 0x92 the right quotation mark of Windows-1252 (WHATWG Encoding, index windows-1252).
    expect(sheetText(Uint8Array.from([0x80, 0x92, 0xeb]))).toEqual({ text: '€’ë', letters: 'Windows-1252' });
  });
  it.each([
    ['a workbook', [0x50, 0x4b, 0x03, 0x04], 'workbook'],
    ['an old workbook', [0xd0, 0xcf, 0x11, 0xe0], 'old workbook'],
    ['a PDF', [0x25, 0x50, 0x44, 0x46], 'PDF'],
    ['a picture', [0x89, 0x50, 0x4e, 0x47], 'picture'],
    ['nothing', [], 'nothing'],
    ['blanks', [0x20, 0x0a], 'nothing'],
    ['a zero', [0x41, 0x0a, 0x42, 0x00], 'In line 2'],
  ])('are none in %s', (_, start, says) => {
    expect(sheetText(Uint8Array.from(start))).toEqual({ says: expect.stringContaining(says) });
  });
});

describe('what parts the cells', () => {
  it.each([
    ['a,b\n1,2', ','],
    ['a;b\n1,5;2,5', ';'],
    ['a\tb\n1,x\t2', '\t'],
    ['a|b\n1|2', '|'],
    ['"a;b;c",d\n"1;2;3",4', ','],
    ['one column\nno part', ','],
    ['Name; first,Town\nA,B\nC,D', ','],
  ])('in %j', (text, parting) => {
    expect(partingOf(text).parting).toBe(parting);
  });
  it('may be said in a first line', () => {
    expect(rows('sep=;\r\na;b,c\r\n1;2\r\n')).toEqual([
      ['a', 'b,c'],
      ['1', '2'],
    ]);
  });
});

describe('RFC 4180, section 2, its examples', () => {
  it.each([
    [
      '1. lines by CRLF',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '2. no end after the last',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '3. a head',
      'field_name,field_name,field_name\r\naaa,bbb,ccc\r\n',
      [
        ['field_name', 'field_name', 'field_name'],
        ['aaa', 'bbb', 'ccc'],
      ],
    ],
    [
      '5. quoted',
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '6. an end of line inside',
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['7. a quotation mark inside', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('%s', (_, text, cells) => {
    expect(rows(text)).toEqual(cells);
  });
});

describe('cases as public collections of CSV files have them (from memory)', () => {
  it.each([
    [
      'empty cells',
      'a,b,c\n1,"",""\n2,3,4',
      [
        ['a', 'b', 'c'],
        ['1', '', ''],
        ['2', '3', '4'],
      ],
    ],
    [
      'commas in quotes',
      'a,b\n"1,2",3',
      [
        ['a', 'b'],
        ['1,2', '3'],
      ],
    ],
    [
      'LF inside CRLF',
      'a,b\r\n"x\ny",2',
      [
        ['a', 'b'],
        ['x\ny', '2'],
      ],
    ],
    [
      'CR alone',
      'a,b\r1,2',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'quotation marks and ends of lines',
      'a,b\n1,"ha \n""ha"" \nha"\n3,4',
      [
        ['a', 'b'],
        ['1', 'ha \n"ha" \nha'],
        ['3', '4'],
      ],
    ],
    [
      'text like JSON',
      'key,val\n1,"{""type"": ""Point""}"',
      [
        ['key', 'val'],
        ['1', '{"type": "Point"}'],
      ],
    ],
    [
      'other letters',
      'a,b\n1,ʤ',
      [
        ['a', 'b'],
        ['1', 'ʤ'],
      ],
    ],
    [
      'blanks kept',
      'a, b\n 1,2 ',
      [
        ['a', ' b'],
        [' 1', '2 '],
      ],
    ],
    [
      'a formula is text',
      'a,b\n=1+1,@x',
      [
        ['a', 'b'],
        ['=1+1', '@x'],
      ],
    ],
    [
      'a formula made harmless',
      "a,b\n'=1+1,2",
      [
        ['a', 'b'],
        ['=1+1', '2'],
      ],
    ],
  ])('%s', (_, text, cells) => {
    expect(rows(text)).toEqual(cells);
  });
});
