// Reads about the firm.
export { findFirm as firmName, newestMigration as schemaVersion, waitingNow } from '@backsight/store/firm';
