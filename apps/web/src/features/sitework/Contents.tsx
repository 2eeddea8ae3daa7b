// All pages of the record by system, each with how much of it is left, to go there at once.
import type { ReactNode } from 'react';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import type { StepPage } from '@backsight/domain/sitework/pages';
import { itemName } from './recordModel.ts';
import classes from './sitework.module.css';

type Props = {
  pages: readonly StepPage<SiteStep>[];
  record: MemberRecord;
  current: number;
  done: (step: SiteStep) => boolean;
  onGo: (page: number) => void;
};

export function Contents({ pages, record, current, done, onGo }: Props): ReactNode {
  const systems = [...new Set(pages.map(({ title }) => title))];
  const label = (page: StepPage<SiteStep>): string => {
    const item = itemName(record, page.steps[0]!.itemId);
    const words = page.kind === 'one' ? page.steps[0]!.title : `${page.steps.length} steps: ${page.steps[0]!.title} ...`;
    return item ? `${words} (${item})` : words;
  };
  const left = (page: StepPage<SiteStep>): string => {
    const open = page.steps.filter((step) => !done(step)).length;
    return open === 0 ? 'recorded' : `${open} left`;
  };
  return (
    <>
      {systems.map((system) => {
        const steps = record.steps.filter(({ procedureTitle }) => procedureTitle === system);
        return (
          <section key={system} className={classes.list}>
            <h3>
              <span>{system}</span>
              <span>
                {steps.filter(done).length} of {steps.length}
              </span>
            </h3>
            <ul className={classes.list}>
              {pages.map((page, at) =>
                page.title !== system ? null : (
                  <li key={page.steps[0]!.stepKey + String(page.steps[0]!.itemId)}>
                    <button
                      type="button"
                      className={classes.jump}
                      aria-current={at === current ? 'step' : undefined}
                      onClick={() => onGo(at)}
                    >
                      <span>{label(page)}</span>
                      <span>{left(page)}</span>
                    </button>
                  </li>
                ),
              )}
            </ul>
          </section>
        );
      })}
    </>
  );
}
