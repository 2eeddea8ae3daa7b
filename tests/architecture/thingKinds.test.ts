// Kinds of things in the audit trail, over the whole repository; and the check itself, proven on planted files.
import { describe, expect, it } from 'vitest';
import { checkThingKinds } from './checkThingKinds.ts';
import { expectNone } from './expectNone.ts';
import { repository } from './read.ts';

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
