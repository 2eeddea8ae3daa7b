// Whether anything may be decided on what was concluded: whoever was on the job needs somebody behind them who was not.
import { mayCountOn } from '@backsight/domain/callbacks/conclusion';
import type { Outcome } from '@backsight/domain/shared/outcome';
import { conclusionsOf } from '@backsight/store/callbacks';
import type { Reader } from '@backsight/store/database';

/** Refusal: conclusion-unconfirmed. Where nothing was concluded it says nothing. */
export const confirmedConclusion = async (reader: Reader, callbackId: string): Promise<Outcome<null>> =>
  mayCountOn((await conclusionsOf(reader, callbackId))[0]);
