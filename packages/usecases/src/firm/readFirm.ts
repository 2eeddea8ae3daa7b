// Reads about the firm.
export { findFirm as firmName, newestMigration as schemaVersion } from '@backsight/store/firm';
