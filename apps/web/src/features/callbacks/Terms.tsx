// What the agreement says as it was signed: by whom, the cap, the notice, the time to claim, and whether it binds whoever speaks.
import type { ReactNode } from 'react';
import type { CallbackEvidence } from '@backsight/contract/callbacks';
import type { CallbackBackground } from '@backsight/contract/callbacks/background';
import { Details } from '../../ui/Details.tsx';
import { Money } from '../../ui/Money.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';

type Props = { around: CallbackBackground; evidence: CallbackEvidence };

export function Terms({ around: { terms }, evidence }: Props): ReactNode {
  const agreement = evidence.agreements.find(({ id }) => id === terms?.agreementId);
  const window = <Window of={evidence.windows} />;
  if (!terms || !agreement)
    return (
      <Section title="The agreement">
        <Details
          rows={[
            ['Agreement', 'There is none.'],
            ['Time to claim by law', window],
          ]}
        />
      </Section>
    );
  return (
    <Section title="The agreement">
      <Details
        rows={[
          [
            'Text',
            <div key="text">
              {`${terms.textTitle}, number ${terms.textNumber}`}
              {terms.inForceFrom ? (
                <>
                  , in force from <When at={terms.inForceFrom} />
                </>
              ) : null}
              {agreement.reviewedByAttorney ? '' : '. An example text: no attorney has reviewed it'}
              <details>
                <summary>Read the whole agreement</summary>
                <p style={{ whiteSpace: 'pre-wrap' }}>{agreement.body}</p>
              </details>
            </div>,
          ],
          [
            'Signed',
            agreement.signers.map((s) => (
              <div key={s.name}>
                {s.name}
                {s.signedAt ? (
                  <>
                    , <When at={s.signedAt} />
                  </>
                ) : (
                  ' has not signed'
                )}
              </div>
            )),
          ],
          ['Binds who speaks', terms.binds ? 'Yes: this person signed it' : 'No: cap, notice and time to claim bind only those who signed'],
          [
            'Limit of liability',
            <Clause key="cap" words={terms.cap.clause}>
              {terms.cap.words}
              {terms.cap.cents === null ? null : (
                <>
                  {': '}
                  <Money cents={terms.cap.cents} /> for this job
                </>
              )}
            </Clause>,
          ],
          ['Notice', terms.notice ?? 'The text has no clause about it'],
          [
            'Time to claim, agreed',
            <Clause key="claim" words={terms.claim.clause}>
              {terms.claim.words}
            </Clause>,
          ],
          ['Time to claim by law', window],
        ]}
      />
    </Section>
  );
}

const Clause = ({ words, children }: { words: string | null; children: ReactNode }): ReactNode => (
  <div>
    {children}
    {words ? (
      <details>
        <summary>The clause</summary>
        <p style={{ whiteSpace: 'pre-wrap' }}>{words}</p>
      </details>
    ) : null}
  </div>
);

const STARTS: Record<string, string> = {
  inspected: 'the day of the inspection',
  completed: 'the day on which the work was complete',
  delivered: 'the day on which the report was handed over',
  discovered: 'the day on which it was noticed',
};

function Window({ of: { window } }: { of: CallbackEvidence['windows'] }): ReactNode {
  if (!window) return 'No rule or no day known';
  return (
    <>
      Closes <Day day={window.shortUntil} /> by the short reading, <Day day={window.longUntil} /> by the long one, counted from{' '}
      <Day day={window.from} />
      {STARTS[window.countsFrom] ? ` (${STARTS[window.countsFrom]})` : ''}. For an attorney to judge. {window.sources.join('; ')}; read on{' '}
      <Day day={window.readOn} />
    </>
  );
}
