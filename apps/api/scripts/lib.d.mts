// What the tests use of lib.mjs.
export function ensureGenerated(): void;
export function ensureBuilt(): void;
export function ensureWebBuilt(): string;
