const minuteMs = 60_000;
const hourMs = 60 * minuteMs;
const dayMs = 24 * hourMs;

/**
 * Relative validity of one octet (TS 23.040 section 9.2.3.12.1, from memory): the longest the network keeps trying that
 * is not longer than the text is good for; at least five minutes. 0..143 are steps of 5 minutes, 144..167 of half an
 * hour beyond 12 hours, 168..196 whole days.
 */
export function validityOf(goodForMs: number): number {
  if (goodForMs <= 12 * hourMs) return Math.max(0, Math.floor(goodForMs / (5 * minuteMs)) - 1);
  if (goodForMs <= dayMs) return 143 + Math.floor((goodForMs - 12 * hourMs) / (30 * minuteMs));
  if (goodForMs < 2 * dayMs) return 167;
  return Math.min(196, 166 + Math.floor(goodForMs / dayMs));
}
