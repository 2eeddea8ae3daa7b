// What bringing in would do, row by row where something is to be said, and the act itself.
import { useState, type ReactNode } from 'react';
import { Button, Checkbox } from '@mantine/core';
import type { BringIn } from '@backsight/contract/firm/bringIns';
import { bringThemIn } from '../../api/bringIns.ts';
import { Form } from '../../ui/Form.tsx';
import { Follows } from '../../ui/Follows.tsx';
import { inputId, useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { Counts } from './Counts.tsx';
import { PastJobs } from './PastJobs.tsx';
import { Problems } from './Problems.tsx';
import { ThrowAway } from './ThrowAway.tsx';
import { manyOf, rowsOf } from './words.ts';

const LABELS = { leaveOut: 'Leave out rows with something to put right' };

export function Looked({ of, onColumns }: { of: BringIn; onColumns: () => void }): ReactNode {
  const send = useSend(bringThemIn, { refresh: ['bring-ins'], said: 'They are being brought in.' });
  const fields = useFields({ leaveOut: false }, LABELS, send.error);
  const [missed, setMissed] = useState(false);
  const { counts } = of;
  if (!counts) return null;
  const { fresh, left } = counts;
  const submit = () => {
    const open = left > 0 && !fields.values.leaveOut;
    setMissed(open);
    if (open) document.getElementById(inputId('leaveOut'))?.focus();
    else send.mutate({ id: of.id, version: of.version, ...fields.values });
  };
  const besides = (
    <>
      <Button variant="default" onClick={onColumns}>
        Change the columns
      </Button>
      <ThrowAway of={of} />
    </>
  );
  return (
    <>
      <Counts of={of} counts={counts} />
      {of.kind === 'jobs' && fresh > 0 ? <PastJobs /> : null}
      {fresh === 0 ? (
        <>
          <p>No row of this file would be added.</p>
          {besides}
        </>
      ) : (
        <Form
          error={send.error}
          labels={LABELS}
          submit={`Bring in ${manyOf(of.kind, fresh)}`}
          busy={send.isPending}
          onSubmit={submit}
          besides={besides}
        >
          {left > 0 ? (
            <Checkbox
              {...fields.check('leaveOut')}
              label={`Leave out the ${rowsOf(left)} with something to put right`}
              description="Or put them right in your spreadsheet, and choose the file anew: what is on file by then is not brought in twice."
              error={missed ? 'Say that these rows may be left out, or put them right first.' : fields.check('leaveOut').error}
            />
          ) : null}
          <Follows>
            All of them are brought in, or none. No mail goes out. Afterwards you can take them out again as long as nothing depends on
            them.
          </Follows>
        </Form>
      )}
      <Problems of={of} counts={counts} />
    </>
  );
}
