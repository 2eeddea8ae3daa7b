// A client reports a problem, or asks, by the private link. It reaches the job of the link and nothing else.
import { kindOfMatter } from '@backsight/domain/callbacks/clientReport';
import type { ClientMatter, Danger, System } from '@backsight/domain/callbacks/intakeWords';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { findFirm } from '@backsight/store/firm';
import { listPeople } from '@backsight/store/people';
import type { Act, Actor, Runner, Work } from '../run.ts';
import { takeIn, type Received } from './steps/takeIn.ts';

/** Job and person are those of the link. `since`: ISO day. */
type Input = {
  jobId: string;
  partyId: string;
  id: string;
  matter: ClientMatter;
  system: System;
  place: string;
  since?: string;
  dangers: readonly Danger[];
  hope: string;
  words: string;
};
type Reported = { id: string; number: number };

const reportByLink: Act<Input, Reported> = { operation: 'callbacks.report', run: report };

async function report(work: Work, { matter, since, hope, dangers, ...input }: Input): Promise<Outcome<Reported>> {
  const { kind, ownerOnly } = kindOfMatter(matter);
  const taken = await takeIn(work, {
    ...input,
    ...(since === undefined ? {} : { discoveredOn: since }),
    ...{ kind, ownerOnly, dangers, way: 'link', speaker: 'client', remedySought: hope, safety: dangers.length > 0 },
  });
  if (!taken.ok) return taken;
  await tell(work, taken.value, ownerOnly);
  return accept({ id: taken.value.id, number: taken.value.number });
}

/** The office hears of it at once; of somebody hurt the owners alone. The words stay in the service. */
async function tell(work: Work, { id, number }: Received, ownerOnly: boolean): Promise<void> {
  const firm = await findFirm(work.tx);
  const owners = (await listPeople(work.tx)).filter(({ endedOn, roles }) => endedOn === null && roles.includes('owner'));
  const to = ownerOnly ? owners : firm?.email ? [{ id: 'office', name: firm.name, email: firm.email }] : [];
  for (const one of to)
    await work.mail({
      messageKey: `callback-reported-${id}-${one.id}`,
      toAddress: one.email,
      toName: one.name,
      subject: `Number ${number} came by a client's link`,
      body: `A client reported something by the private link. It is number ${number}, and its clocks run. Please open it in the list of callbacks.`,
      aboutKind: 'callback',
      aboutId: id,
      urgent: true,
    });
}

/** Takes the report in as the client of the link. Refusals: those of `takeIn`. */
export async function reportAsClient(runner: Runner, input: Input, key?: string): Promise<Outcome<Reported>> {
  const actor: Actor = { kind: 'client', id: input.partyId };
  return runner.run(reportByLink, input, key === undefined ? { actor } : { actor, key });
}
