// What the tests use of lib.mjs.
export function ensureWebBuilt(): string;
