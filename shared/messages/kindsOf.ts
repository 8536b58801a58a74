/** How many there are of each: "9 probe silent", the most frequent first. */
export function kindsOf(whats: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const what of whats) counts.set(what, (counts.get(what) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a).map(([what, count]) => `${count} ${what}`);
}
