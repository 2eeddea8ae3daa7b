-- Entries are found by their record: a step alone is that of every ninetieth entry, and nothing that was asked of ten years used this.
DROP INDEX step_entry_step_key_idx;
