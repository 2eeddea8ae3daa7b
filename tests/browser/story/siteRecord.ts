// Acts of the pair in the story: opening, recording through the screens, the long rest through the same session, ending and sealing.
import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { MemberRecord, NewEntry, SiteStep } from '@backsight/contract/sitework';
import { CAST, type CastName } from '../../support/cast.ts';
import { outbox } from '../../support/sitePhone.ts';
import type { Booked } from './booking.ts';
import type { Stage } from './stage.ts';

export type Pair = { first: CastName; second: CastName };

/** The two of a visit by their names in the cast. */
export function pairOf(booked: Booked): Pair {
  const named = (name: string): CastName => (Object.keys(CAST) as CastName[]).find((key) => CAST[key].name === name)!;
  return { first: named(booked.pair[0]!), second: named(booked.pair[1]!) };
}

/** Opens the record from my day, with the ground-fault device of the upstairs bath among the things that are here. */
export async function openWithDevice(stage: Stage, booked: Booked): Promise<string> {
  const page = await stage.as(pairOf(booked).first, '/my-day');
  await page.getByText('The owner opens').first().waitFor();
  await stage.look(page, 'my-day');
  await page.goto(new URL(`/visits/${booked.visitId}/start`, page.url()).href);
  await page.getByText('Agreement and fee are in order.').waitFor();
  await page.getByText(/What is here/).click();
  const devices = page.getByLabel('ground-fault device', { exact: true });
  await devices.first().fill('Upstairs bath');
  while ((await devices.count()) > 1)
    await devices.nth(1).locator('xpath=ancestor::div[button][1]').getByRole('button', { name: 'Not here' }).click();
  await stage.look(page, 'visit-start');
  await page.getByRole('button', { name: 'Start the visit' }).click();
  await page.waitForURL(/\/records\/[\w-]+$/);
  await page.getByText(/^0 of \d+ recorded$/).waitFor();
  return page.url().split('/').at(-1)!;
}

export const recordOf = (page: Page, id: string): Promise<MemberRecord> =>
  page.evaluate((at) => fetch(`/api/records/${at}`).then((reply) => reply.json()), id);

/** Goes to the page of a step by the list of all steps, which closes when the record, once loaded, opens at another page. */
export async function goTo(page: Page, recordId: string, title: string): Promise<void> {
  await outbox(page); // answers after what was pressed last is kept, which a page that is left at once could lose
  await page.goto(new URL(`/records/${recordId}`, page.url()).href);
  for (let tries = 0; tries < 4; tries++) {
    await page.getByText('All steps').click();
    const gone = await page
      .getByRole('button', { name: title })
      .first()
      .click({ timeout: 4000 })
      .then(
        () => true,
        () => false,
      );
    if (gone) break;
  }
  await page.getByRole('heading', { name: title }).first().waitFor();
}

const answerOf = (step: SiteStep): NewEntry['evidence'] => {
  const asked = step.evidence;
  switch (asked.kind) {
    case 'confirm':
      return { kind: 'confirm' };
    case 'reading':
      return { kind: 'reading', value: asked.expectedFrom ?? 70, unit: asked.unit };
    case 'difference':
      return { kind: 'difference', first: 0, second: asked.expectedFrom ?? 16, unit: asked.unit };
    case 'count':
      return { kind: 'count', count: 12 };
    case 'choice':
      return { kind: 'choice', option: asked.options[0]!.key };
    case 'note':
      return { kind: 'note' };
    case 'photo':
      return { kind: 'photo', without: 'camera' };
  }
};

/** Records what is left for one of the pair, except some steps, through the session of the page. */
export async function recordRest(
  page: Page,
  recordId: string,
  { only, except = [] }: { only?: 'partner_check'; except?: readonly string[] },
): Promise<void> {
  const record = await recordOf(page, recordId);
  const mine = new Set(record.entries.filter((e) => e.observedBy === record.me).map((e) => `${e.stepKey} ${e.itemId}`));
  const any = new Set(record.entries.map((e) => `${e.stepKey} ${e.itemId}`));
  const left = record.steps.filter((step) => {
    if (except.includes(step.stepKey) || (only && !step.partnerCheck)) return false;
    return !(step.partnerCheck ? mine : any).has(`${step.stepKey} ${step.itemId}`);
  });
  const entries = left.map((step, at): NewEntry => ({
    id: randomUUID(),
    packageId: step.packageId,
    stepKey: step.stepKey,
    itemId: step.itemId,
    outcome: 'done',
    evidence: answerOf(step),
    reason: null,
    note: step.evidence.kind === 'note' ? 'As seen.' : null,
    observedBy: record.me,
    observedAt: new Date(record.openedAt).toISOString(),
    observedApprox: false,
    deviceSeq: 10_000 + at,
    corrects: null,
  }));
  for (let from = 0; from < entries.length; from += 50) await send(page, recordId, entries.slice(from, from + 50));
}

async function send(page: Page, recordId: string, entries: NewEntry[]): Promise<void> {
  const reply = (await page.evaluate(
    ({ at, body, key }) =>
      fetch(`/api/records/${at}/entries`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', 'idempotency-key': key },
        body: JSON.stringify(body),
      }).then((r) => r.json()),
    { at: recordId, body: { entries }, key: randomUUID() },
  )) as { results?: { stored: boolean; sentence: string | null }[] };
  expect(reply.results?.filter(({ stored }) => !stored) ?? reply).toEqual([]);
}

async function signOff(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'I sign off: it is as I saw it' }).click();
  await page.getByText('Everything is sent.').waitFor();
}

/** Each signs off on the own phone; the one who leaves last ends the visit and seals the record. */
export async function endAndSeal(stage: Stage, pair: { first: CastName; second: CastName }, recordId: string): Promise<void> {
  stage.clock.now = new Date(stage.clock.now.getTime() + 60_000); // the clock of the story stands still: they sign off after what they wrote
  await signOff(await stage.as(pair.first, `/records/${recordId}/seal`));
  const page = await stage.as(pair.second, `/records/${recordId}/seal`);
  await page.getByText('Every step has its entry.').waitFor();
  await signOff(page);
  await page.getByRole('button', { name: 'End the visit' }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'End the visit' }).click();
  await page.getByRole('button', { name: 'Seal the record' }).click();
  await page.getByRole('button', { name: 'Seal it' }).click();
  await page.getByText('Fingerprint').waitFor();
  await stage.look(page, 'record-sealed');
}
