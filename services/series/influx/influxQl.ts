/** InfluxDB keeps times as 64-bit nanoseconds around 1970: it knows none before or after these. */
const earliestMs = Date.UTC(1678, 0, 1);
const latestMs = Date.UTC(2262, 0, 1);

/** A string literal of InfluxQL. */
export function quoted(text: string): string {
  return `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
}

/** An identifier of InfluxQL. */
export function identifier(name: string): string {
  return `"${name.replaceAll('\\', '\\\\').replaceAll('"', '\\"')}"`;
}

/** A time literal of InfluxQL; times out of InfluxDB's reach become the nearest it knows. */
export function timeLiteral(timeMs: number): string {
  return `'${new Date(Math.min(latestMs, Math.max(earliestMs, timeMs))).toISOString()}'`;
}

/** A condition on time, from included to excluded. */
export function between(fromMs: number, toMs: number): string {
  return `time >= ${timeLiteral(fromMs)} AND time < ${timeLiteral(toMs)}`;
}

/** One row of an answer by column name; absent fields are null. */
export type InfluxRow = Readonly<Record<string, unknown>>;
