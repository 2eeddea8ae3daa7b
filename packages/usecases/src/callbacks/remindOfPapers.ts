// Reminds the owners by mail of legal papers whose deadline comes near or was missed.
import { reminderDue } from '@backsight/domain/callbacks/legal';
import { KINDS } from '@backsight/domain/callbacks/words';
import { accept } from '@backsight/domain/shared/outcome';
import { papersOpen, type OpenPaper } from '@backsight/store/callbacks/papers';
import type { Database } from '@backsight/store/database';
import { keysQueued } from '@backsight/store/mail/reminders';
import { listPeople } from '@backsight/store/people';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Runner } from '../run.ts';

const keyOf = ({ id, deadlineOn }: OpenPaper, days: number, personId: string): string =>
  `paper-deadline:${id}:${deadlineOn}:${days}:${personId}`;

const when = (days: number): string =>
  days < 0 ? 'was missed' : days === 0 ? 'is today' : days === 1 ? 'is tomorrow, or sooner' : `is in ${days} days, or sooner`;

const remindOne: Act<{ paper: OpenPaper; days: number }, { told: number }> = {
  operation: 'callbacks.remind-of-paper',
  run: async (work, { paper, days }) => {
    const owners = (await listPeople(work.tx)).filter(({ endedOn, roles }) => endedOn === null && roles.includes('owner'));
    for (const owner of owners)
      await work.mail({
        messageKey: keyOf(paper, days, owner.id),
        toAddress: owner.email,
        toName: owner.name,
        subject: `${days < 0 ? 'Deadline missed' : 'Deadline'}: callback ${paper.number}`,
        urgent: true,
        aboutKind: 'callback',
        aboutId: paper.id,
        body: [
          `The deadline of callback ${paper.number} (${KINDS[paper.kind]}) ${when(days)}: ${paper.deadlineOn}, as it was written down from the paper.`,
          `${work.publicUrl}/callbacks/${paper.id}`,
          'The paper itself and your attorney go before this reminder.',
        ].join('\n\n'),
      });
    await work.did('callback', paper.id, { event: 'reminded', days });
    return accept({ told: owners.length });
  },
};

/** One reminder for each step of days; answers how many papers were reminded of. */
export async function remindOfPapers(parts: { database: Database; runner: Runner; clock: () => Date }): Promise<number> {
  const { read } = parts.database;
  const { today } = await localDay(read, parts.clock());
  const owners = (await listPeople(read)).filter(({ endedOn, roles }) => endedOn === null && roles.includes('owner'));
  let reminded = 0;
  for (const paper of await papersOpen(read)) {
    const days = reminderDue(paper.deadlineOn, today);
    if (days === null) continue;
    const keys = owners.map(({ id }) => keyOf(paper, days, id));
    if ((await keysQueued(read, keys)).size > 0) continue;
    await parts.runner.run(remindOne, { paper, days }, { actor: { kind: 'service' } });
    reminded += 1;
  }
  return reminded;
}
