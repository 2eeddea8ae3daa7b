// What still misses before the seal, each with the way to its step.
import type { ReactNode } from 'react';
import type { MemberRecord } from '@backsight/contract/sitework';
import { pagesOf } from '@backsight/domain/sitework/pages';
import { placeOf } from '@backsight/domain/sitework/value';
import { TextLink } from '../../ui/links.tsx';
import { itemName, nameOf } from './recordModel.ts';
import classes from './sitework.module.css';

export function MissingList({ record, missing }: { record: MemberRecord; missing: MemberRecord['missing'] }): ReactNode {
  const pages = pagesOf(record.steps);
  if (missing.length === 0)
    return (
      <div className={classes.notice}>
        <p>Every step has its entry.</p>
      </div>
    );
  return (
    <section>
      <h2 className={classes.day}>Still missing: {missing.length}</h2>
      <ul className={classes.list}>
        {missing.map((m) => {
          if (m.kind === 'member')
            return (
              <li key={`member${m.person}`}>
                <p>Nothing of {nameOf(record, m.person ?? '')} has arrived yet.</p>
              </li>
            );
          const place = placeOf({ stepKey: m.stepKey ?? '', itemId: m.itemId });
          const step = record.steps.find((s) => placeOf(s) === place);
          const item = itemName(record, m.itemId);
          const who = m.person === null ? '' : m.person === record.me ? ', yours' : `, ${nameOf(record, m.person)}'s`;
          return (
            <li key={place + String(m.person)}>
              <p>
                <TextLink
                  to="/records/$recordId"
                  params={{ recordId: record.id }}
                  search={{
                    page: Math.max(
                      0,
                      pages.findIndex((page) => page.steps.some((s) => placeOf(s) === place)),
                    ),
                  }}
                >
                  {step?.title ?? m.stepKey}
                  {item ? ` (${item})` : ''}
                </TextLink>
                {who}
              </p>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
