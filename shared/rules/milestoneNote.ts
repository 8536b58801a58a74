/** What tells a milestone's note in the journal from others: the system wrote it, and it begins like this. */
export const noteStart = 'Milestone: ';
