// Loads the tables of the demo in the order in which they point at one another.
import { columnName, type CopyRow, type CopySession } from '@backsight/store/copy';
import { badAddresses, mailed } from './mailStates.ts';
import { all, type Row, type Tables } from './memory/tables.ts';

const FIRM = [
  'firm',
  'office',
  'town',
  'closedDay',
  'rulePack',
  'approvalLimit',
  'insurancePolicy',
  'qualificationKind',
  'kitKind',
  'kitCheckNeed',
  'visitKind',
  'ledgerAccount',
  'moneyRules',
  'agreementText',
  'feeSchedule',
  'bookingRules',
  'service',
  'provider',
];
const PEOPLE = [
  'person',
  'personRole',
  'license',
  'personQualification',
  'workPattern',
  'absence',
  'workException',
  'weatherClosure',
  'educationEntry',
  'pairingRule',
  'personSize',
  'kitItem',
  'kitCheck',
  'mileageEntry',
  'approvalLoan',
  'travelRule',
  'travelFit',
  'travelSetup',
  'payRule',
  'inquiry',
  'onCallDuty',
];
const JOBS = [
  'keptText',
  'property',
  'factSheet',
  'personBar',
  'party',
  'personPartyBar',
  'job',
  'jobEvent',
  'jobParty',
  'jobService',
  'jobNeed',
  'jobFeeLine',
  'jobDiscount',
  'reinspectionItem',
  'visit',
  'assignment',
  'observer',
  'providerVisit',
  'visitKit',
  'driveMark',
  'personDay',
  'kitDay',
  'visitEnding',
  'lateNotice',
  'testItem',
  'testStep',
  'jobAccess',
  'laterLook',
  'jobTerms',
  'payerShare',
];
const PAPERS = ['agreement', 'signer', 'signerAnswer', 'signature', 'gateOverride', 'invoice', 'invoiceLine'];
const BOOK = ['procedure', 'stepKey', 'procedureRevision', 'revisionStep'];
const IN_FORCE = [
  'inForcePeriod',
  'acknowledgement',
  'revisionAnswer',
  'siteRecord',
  'recordItem',
  'sitePackage',
  'packageStep',
  'stepEntry',
];
const AFTER = [
  'report',
  'sealedPaper',
  'reportDelivery',
  'reportConsent',
  'handOverOverride',
  'callback',
  'callbackIntake',
  'callbackEvent',
  'callbackAssessment',
  'afterCheck',
  'callbackClock',
  'callbackPause',
  'dangerChain',
  'dangerAlert',
  'accountRequest',
  'account',
  'conclusion',
  'estimate',
  'remedy',
  'remedyConflict',
  'insurerNotice',
  'remedyApproval',
  'remedyVisit',
  'clearance',
  'ledgerEntry',
  'ledgerLine',
  'payment',
  'remedyPayment',
  'callbackRecovery',
  'invoiceAct',
  'bookClosing',
  'correctiveAction',
  'correctiveActionCallback',
  'correctiveActionEvent',
];
const LAST = ['outgoingMail', 'badAddress', 'contactNote', 'auditRow', 'numberCounter'];
const ORDER = [...FIRM, ...PEOPLE, ...JOBS, ...PAPERS, ...BOOK, ...IN_FORCE, ...AFTER, ...LAST];

/** Rows as they may be written first: a revision takes steps only as a draft, a record takes entries only while it is open; a link has its column's name. */
const FIRST: Record<string, (row: Row) => Row> = {
  procedureRevision: (row) => ({ ...row, state: 'draft' }),
  siteRecord: (row) => ({ ...row, state: 'open', sealedAt: null, sealSha256: null, sealedBy: null }),
  callback: ({ duplicateOfId, repeatOfId, ...row }) => ({ ...row, duplicateOf: duplicateOfId, repeatOf: repeatOfId }),
};

const APPROVE = `UPDATE procedure_revision SET state = 'approved' WHERE id = ANY($1::uuid[])`;
const SEAL = `UPDATE site_record r SET state = 'sealed', seal_sha256 = s.sha, sealed_by = s.by_id, sealed_at = s.at FROM unnest($1::uuid[], $2::text[], $3::uuid[], $4::timestamptz[]) AS s(id, sha, by_id, at) WHERE r.id = s.id`;

/**
 * Copies every table. Answers how many rows there are. `unchecked` tables come apart from those that they have to follow: invoices before
 * the number before them is there, entries of the ledger after their month was closed. @throws Error when a table was written that nobody loads
 */
export async function loadTables(session: CopySession, tables: Tables, now: Date, unchecked: readonly string[] = []): Promise<number> {
  const forgotten = [...tables.keys()].filter((name) => !ORDER.includes(name) && all(tables, name).length > 0);
  if (forgotten.length > 0) throw new Error(`nobody loads ${forgotten.join(', ')}`);
  let rows = 0;
  for (const name of ORDER) {
    rows += await session[unchecked.includes(name) ? 'copyUnchecked' : 'copy'](columnName(name), rowsOf(tables, name, now));
    if (name === 'revisionStep')
      await session.run(APPROVE, [
        all(tables, 'procedureRevision')
          .filter(({ state }) => state === 'approved')
          .map(({ id }) => id),
      ]);
    if (name === 'stepEntry')
      await sealAll(
        session,
        all(tables, 'siteRecord').filter(({ state }) => state === 'sealed'),
      );
  }
  return rows;
}

const rowsOf = (tables: Tables, name: string, now: Date): CopyRow[] => {
  const rows = all(tables, name);
  if (name === 'outgoingMail') return mailed(rows, now);
  if (name === 'badAddress') return badAddresses(all(tables, 'outgoingMail'), now);
  const first = FIRST[name];
  return first ? rows.map(first) : rows;
};

const sealAll = (session: CopySession, sealed: readonly Row[]): Promise<number> =>
  session.run(SEAL, [
    sealed.map(({ id }) => id),
    sealed.map(({ sealSha256 }) => sealSha256),
    sealed.map(({ sealedBy }) => sealedBy),
    sealed.map(({ sealedAt }) => sealedAt.toISOString()),
  ]);
