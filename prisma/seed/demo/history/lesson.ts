// What the firm learnt in its first years: after several callbacks for water in cellars the step on the lowest level asks for more.
import { shiftDay } from '@backsight/domain/shared/calendar';
import { SHORT_BOOK } from './shortBook.ts';
import { changeProcedure } from '../scripts/revisions.ts';
import type { DemoContext } from '../scripts/context.ts';
import type { Stage } from '../stage.ts';

/** The step that changed, and days before today on which the firm set out to change it. */
export const CELLAR_STEP = 'water-entry-lowest-level';
const DAYS_AGO = 520;
/** It can be judged only when a spring and an autumn of rain have come twice. */
const REVIEW_DAYS = 540;

export type Lesson = {
  /** Whether the step failed still on visits of this day. */ failsOn: (step: string | undefined, day: string) => boolean;
  /** Takes a concluded callback to the lesson. */ concluded: (step: string | undefined, callbackId: string) => void;
};

const ASKS = {
  instruction:
    'Look at the foot of every wall. Where shelves, boxes or finishes hide it, ask to have them moved, look again, and name in the remarks ' +
    'each wall that stayed hidden. Then floor joints, post feet and rust at the furnace and water heater.',
  why: 'Most callbacks of the first years were for water behind belongings.',
};

/** Places the lesson on the stage; it is drawn from the callbacks concluded by then, and from none there is none. */
export function learns(demo: DemoContext, stage: Stage): Lesson {
  const { today, at } = demo.calendar;
  const callbackIds: string[] = [];
  const step = SHORT_BOOK.flatMap(({ steps }) => steps).find(({ key }) => key === CELLAR_STEP)!;
  const day = shiftDay(today, -DAYS_AGO);
  stage.at(at(day, 9, 30), async (later) => {
    if (callbackIds.length === 0) return;
    await changeProcedure(demo, {
      ...{ procedure: 'structure', steps: [{ ...step, ...ASKS }], questions: [], callbackIds, reviewDays: REVIEW_DAYS },
      title: 'Belongings at cellar walls are moved, or the wall is named as not seen',
      why: 'Water behind shelves and boxes came back again and again, and no record said that the wall was hidden.',
      reason: 'Look behind what stands at the wall, and say what stayed hidden.',
      ...{ atTheStart: [], never: [] },
    })(later);
  });
  return {
    failsOn: (key, visited) => key !== CELLAR_STEP || visited < day,
    concluded: (key, id) => {
      if (key === CELLAR_STEP) callbackIds.push(id);
    },
  };
}
