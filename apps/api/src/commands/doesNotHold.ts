// What verify ends with when something was changed past the service.
export class DoesNotHold extends Error {}
