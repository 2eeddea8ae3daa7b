// The revisions that a pair works by at an instant, with their steps.
export { findInForce as revisionsInForce, type InForceRow as RevisionInForce } from '@backsight/store/procedures';
