// Hand-written SQL of a transaction goes to its connection straight: inside it, one statement after the other, and never behind its end.
import { expect, it } from 'vitest';
import type { Tx } from '@backsight/store/database';
import { testService } from '../support/database.ts';

const service = testService();
const ADD = `INSERT INTO number_counter (kind, next) VALUES ($1, 1) RETURNING kind`;
const kinds = async (like: string) =>
  (
    await service.database.read.rows<{ kind: string }>('SELECT kind FROM number_counter WHERE starts_with(kind, $1) ORDER BY kind', [like])
  ).map(({ kind }) => kind);

it('sees what the transaction wrote by any way, and is undone with it', async () => {
  const broken = service.database.transaction(async (tx) => {
    await tx.db.numberCounter.create({ data: { kind: 'undone-1', next: 1 } });
    expect(await tx.rows('SELECT next FROM number_counter WHERE kind = $1', ['undone-1'])).toEqual([{ next: 1 }]);
    await tx.rows(ADD, ['undone-2']);
    expect(await kinds('undone')).toEqual([]);
    throw new Error('broken off');
  });
  await expect(broken).rejects.toThrow('broken off');
  expect(await kinds('undone')).toEqual([]);
});

it('runs what is asked for at once one after the other', async () => {
  const warned: string[] = [];
  const hear = (one: Error): void => void warned.push(one.message);
  process.on('warning', hear);
  await service.database.transaction((tx) => Promise.all(['a', 'b', 'c'].map((end) => tx.rows(ADD, [`at-once-${end}`]))));
  process.off('warning', hear);
  expect([await kinds('at-once'), warned]).toEqual([['at-once-a', 'at-once-b', 'at-once-c'], []]);
});

it.each(['is kept', 'is undone'])('does nothing once its transaction %s', async (how) => {
  let late: Tx | undefined;
  const done = service.database.transaction(async (tx) => {
    late = tx;
    await tx.rows('SELECT 1');
    if (how === 'is undone') throw new Error(how);
  });
  await done.catch(() => {});
  await expect(late!.rows(ADD, ['late'])).rejects.toThrow(/[Tt]ransaction/);
  expect(await kinds('late')).toEqual([]);
});
