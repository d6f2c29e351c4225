/** Names under which the device keeps what was typed and not sent yet. */
export const draftName = (job: 'sand' | 'ready', bed = ''): string => `draft.${job}${bed && `.${bed}`}`;
