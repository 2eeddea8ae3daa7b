// Kinds of things and words of operations in the audit trail, over the whole repository; and the check itself, proven on planted files.
import { describe, expect, it } from 'vitest';
import { checkOperations } from './checkOperations.ts';
import { checkThingKinds } from './checkThingKinds.ts';
import { expectNone } from './expectNone.ts';
import { repository } from './read.ts';

describe('operations in the audit trail', () => {
  it('have words each', () => expectNone(checkOperations(repository())));
  it.each([
    ["operation: 'jobs.hold',", 0],
    ["operation: 'jobs.hodl',", 1],
  ])('%s breaks the rule %i times', (text, times) => {
    expect(checkOperations([{ path: 'packages/usecases/src/a/b.ts', text }])).toHaveLength(times);
  });
});

describe('kinds of things in the audit trail', () => {
  it('are spelled in one way', () => expectNone(checkThingKinds(repository())));
  it.each([
    ["await work.did('site_record', id);", 1],
    ["await work.did('siteRecord', id);", 1],
    ["addAuditRow(tx, { thingKind: 'a_b' });", 1],
    ["await work.did('site-record', id);", 0],
    ["await work.did('job', id);", 0],
  ])('%s breaks the rule %i times', (text, times) => {
    expect(checkThingKinds([{ path: 'packages/usecases/src/a/b.ts', text }])).toHaveLength(times);
  });
});
