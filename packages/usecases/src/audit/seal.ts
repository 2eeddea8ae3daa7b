// Sealing and proving the audit trail.
export { sealAudit, verifyAudit } from '@backsight/store/audit';
