// The published rows that the procedure book claims; they live with the check of coverage.
export { WISCONSIN_ROWS } from '@backsight/domain/procedures/data/wisconsin';
