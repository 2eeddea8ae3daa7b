// The name of a part of a screen in the address: a link can lead to it, although it is drawn only once its data has come.

/** 'What we do' becomes 'what-we-do'. */
export const partId = (title: string): string => title.toLowerCase().replace(/[^a-z0-9]+/g, '-');

/** Whether the address leads to this part. */
export const isAsked = (title: string): boolean => window.location.hash === `#${partId(title)}`;
