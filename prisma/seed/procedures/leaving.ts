// Leaving: what we changed is put back, and only that; what was found off is told.
import type { Procedure } from '@backsight/domain/procedures/step';
import { CONFIRM, EXTRA, note, step, trade } from './shorthand.ts';

export const LEAVING: Procedure = {
  key: 'leaving',
  title: 'Leaving',
  system: 'leaving',
  steps: [
    step({
      key: 'restore-what-we-changed',
      title: 'What we changed is as it was',
      who: 'partner_check',
      style: 'read_then_do',
      after: ['ground-fault-trip-reset', 'thermostat-as-found'],
      instruction:
        'Go through the house with the list of what this pair changed: thermostats against their photo, switches, ground-fault devices reset, fans, faucets, dampers, hatches, ' +
        'panel covers, windows, garage door. Put back only what we changed. What was found off stays off. Each of you goes through it separately.',
      why: 'What we leave changed is ours: heat off in January is a burst pipe.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 3,
      references: [trade('restoring after a visit')],
    }),
    step({
      key: 'found-off-told',
      title: 'What was found off is told',
      after: ['utilities-as-found'],
      instruction:
        'Tell client and occupant what was found off, that we left it so, what could not be inspected because of it, and offer a return visit. Write down who was told.',
      why: 'The client should know today, not from the report.',
      evidence: note('who was told, and the return visit offered; or nothing was off'),
      basis: EXTRA,
      minutes: 1,
      references: [trade('utilities found off')],
    }),
    step({
      key: 'damage-told',
      title: 'Damage or injury on the visit, or none',
      after: ['restore-what-we-changed'],
      instruction:
        'If anything was damaged or anybody hurt: photograph it, tell the occupant, record it before you drive away. Promise nothing.',
      why: 'The same hour is the only time when everybody agrees on what happened.',
      evidence: note('what and who was told, or none'),
      basis: EXTRA,
      minutes: 1,
      references: [trade('damage told the same hour')],
    }),
    step({
      key: 'locked-and-keys-back',
      title: 'Locked, keys back, animals let out as agreed',
      who: 'partner_check',
      style: 'read_then_do',
      after: ['restore-what-we-changed'],
      instruction:
        'Close and lock what was locked on arrival, put the key back where it came from, and tell the occupant that we are done and the animals may be let out. The other one tries each door.',
      why: 'A door left open is a theft, a frozen pipe or a lost dog.',
      evidence: CONFIRM,
      basis: EXTRA,
      minutes: 1,
      references: [trade('closing a house')],
    }),
  ],
};
