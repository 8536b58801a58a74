/** A reading older than this is shown as old, not as a number to trust. */
export const oldAfterMs = 60 * 60_000;
