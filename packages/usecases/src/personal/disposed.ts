// Whether what somebody asks for was disposed of.
import { refuse, type Refusal } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { disposedOn, type JobThing } from '@backsight/store/personal/retention';

/** The no for whoever asks for a thing of a job whose file went; null where it is there. Refusals: job-disposed. */
export async function refusedAsDisposed(reader: Reader, ask: { of: JobThing; id: string }): Promise<Refusal | null> {
  const gone = await disposedOn(reader, ask.of, ask.id);
  return gone && refuse('job-disposed', gone);
}
