// What the client's page for reporting shows: the firm's hours, the advice in danger, and the state of the client's own reports in plain words.
import { adviceNow, type Advice } from '@backsight/domain/callbacks/advice';
import { stateForClient, type ClientState } from '@backsight/domain/callbacks/clientReport';
import { openingHours } from '@backsight/domain/firm/stored';
import { openingWords } from '@backsight/domain/shared/openingWords';
import { findCallback } from '@backsight/store/callbacks';
import { approvedAdvice } from '@backsight/store/callbacks/advice';
import { nextClock } from '@backsight/store/callbacks/clocks';
import { reportsOfParty } from '@backsight/store/callbacks/intake';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import type { Reader } from '@backsight/store/database';
import { findFirm } from '@backsight/store/firm';
import { listOffices } from '@backsight/store/firm/settings';
import { dayAt } from './steps/day.ts';

/** `sameAs`: the number of the first one of this job, when it was told once more; one of an earlier client of the house is never named. `answerBy`: somebody is in touch by then (ISO); null when that is done. */
export type OwnReport = {
  number: number;
  question: boolean;
  state: ClientState;
  receivedAt: string;
  sameAs: number | null;
  answerBy: string | null;
};

export type ReportPage = {
  firm: string;
  firmPhone: string;
  onCallPhone: string;
  hours: string;
  zone: string;
  name: string;
  jobNumber: number;
  address: string;
  today: string;
  inspectedOn: string | null;
  advice: Advice[];
  reports: OwnReport[];
};

/** Nothing of opinions, money or other people's reports is in it. */
export async function readReportPage(
  reader: Reader,
  { jobId, partyId, now }: { jobId: string; partyId: string; now: Date },
): Promise<ReportPage> {
  const job = (await findJobForCallback(reader, jobId))!;
  const firm = (await findFirm(reader))!;
  const office = (await listOffices(reader)).find(({ id }) => id === job.officeId)!;
  return {
    ...{ firm: firm.name, firmPhone: firm.phone, onCallPhone: firm.onCallPhone, zone: job.zone },
    hours: openingWords(openingHours(office.hours)),
    name: job.parties.find(({ id }) => id === partyId)?.name ?? '',
    jobNumber: job.number,
    address: `${job.address}, ${job.town}`,
    today: dayAt(now, job.zone),
    inspectedOn: job.inspectedOn,
    advice: adviceNow(await approvedAdvice(reader)),
    reports: await ownReports(reader, jobId, partyId),
  };
}

async function ownReports(reader: Reader, jobId: string, partyId: string): Promise<OwnReport[]> {
  const rows = await reportsOfParty(reader, jobId, partyId);
  const shown: OwnReport[] = [];
  for (const { id, number, kind, state, receivedAt, duplicateOfId } of rows) {
    const first = duplicateOfId === null ? null : await findCallback(reader, duplicateOfId);
    const seen = first ?? { kind, state };
    shown.push({
      number,
      question: kind === 'question',
      state: stateForClient(seen.kind, seen.state),
      receivedAt: receivedAt.toISOString(),
      sameAs: first?.jobId === jobId ? first.number : null,
      answerBy: first === null && state === 'received' ? await heardBy(reader, id) : null,
    });
  }
  return shown;
}

async function heardBy(reader: Reader, id: string): Promise<string | null> {
  return (await nextClock(reader, id)).dueAt?.toISOString() ?? null;
}
