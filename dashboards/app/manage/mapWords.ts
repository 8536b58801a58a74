/** What the page of the yard's map says. */
export const mapWords = {
  fetching: 'Fetching the map...',
  noPiles: 'No pile is open: there is nothing to draw yet.',
  hint: 'Say where each place is, counted from the top left as you look at the yard. Piles of one place stand side by side. A wall shows it so when "This screen" is set to order by the yard’s map.',
  column: (place: string) => `Column of ${place}`,
  row: (place: string) => `Row of ${place}`,
  preview: 'The yard as the wall will show it',
  save: 'Keep this map',
  saved: 'Kept. Walls that go by the map show it now.',
} as const;
