// Which form is the open one after one of them opens or closes.

/** Opening takes the place of whichever was open; closing never closes another that was opened meanwhile. */
export const nowOpen = (open: string | null, name: string, opens: boolean): string | null => (opens ? name : open === name ? null : open);
