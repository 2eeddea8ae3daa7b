// Names of kinds of visits and of systems, as sentences begin with them.
const first = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const kindName = (kind: string): string => first(kind.replaceAll('_', ' '));
