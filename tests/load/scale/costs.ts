/** What one unit of each work costs, as the scale bench measured it. Microseconds are of processor time. */
export interface Costs {
  /** The bare baseline: taking a message of one reading apart with JSON.parse and putting it together again. */
  readonly bareMicroseconds: number;
  /** A message of one reading, from the socket of the built-in broker to the acknowledgement after the commit. */
  readonly messageOfOneMicroseconds: number;
  /** The same with four readings in it. */
  readonly messageOfFourMicroseconds: number;
  /** A message of one reading from a broker of one's own: our part, and the broker's. */
  readonly messageTakenMicroseconds: number;
  readonly brokerMicroseconds: number;
  /** A pile with one core channel, judged once. */
  readonly judgementMicroseconds: number;
  /** A reading forwarded to InfluxDB: our part, and InfluxDB's. */
  readonly forwardMicroseconds: number;
  readonly influxMicroseconds: number;
  /** An alarm's step with its text in one transaction: on SQLite, and on PostgreSQL (its part and ours). */
  readonly alarmSqliteMicroseconds: number;
  readonly alarmPostgresMicroseconds: number;
  /** A pile's status written, fifty in one transaction, on PostgreSQL (its part and ours). */
  readonly statusPostgresMicroseconds: number;
  /** A reading stored in PostgreSQL, in groups of 100, where services are split (its part and ours). */
  readonly readingPostgresMicroseconds: number;
  /** A reading on the disk of the local store, and of InfluxDB 1.x once it has packed it. */
  readonly localBytes: number;
  readonly influxBytes: number;
  readonly postgresBytes: number;
}

export const costNames: Readonly<Record<keyof Costs, string>> = {
  bareMicroseconds: 'bare: JSON of one reading, parsed and written',
  messageOfOneMicroseconds: 'message of one reading, built-in broker, stored',
  messageOfFourMicroseconds: 'message of four readings, built-in broker, stored',
  messageTakenMicroseconds: 'message of one reading from Mosquitto, stored: our part',
  brokerMicroseconds: 'the same: Mosquitto’s part',
  judgementMicroseconds: 'a pile judged once',
  forwardMicroseconds: 'a reading forwarded to InfluxDB: our part',
  influxMicroseconds: 'the same: InfluxDB’s part',
  alarmSqliteMicroseconds: 'an alarm’s step with its text, SQLite',
  alarmPostgresMicroseconds: 'an alarm’s step with its text, PostgreSQL and us',
  statusPostgresMicroseconds: 'a pile’s status, PostgreSQL and us',
  readingPostgresMicroseconds: 'a reading stored in PostgreSQL, PostgreSQL and us',
  localBytes: 'a reading in the local store',
  influxBytes: 'a reading in InfluxDB',
  postgresBytes: 'a reading in PostgreSQL',
};

/** Microseconds with their ratio to the bare baseline, bytes as they are. */
export function costTable(costs: Costs): string {
  const rows = (Object.keys(costNames) as (keyof Costs)[]).map((key) => {
    const value = costs[key];
    const isTime = key.endsWith('Microseconds');
    const ratio = isTime ? `${(value / costs.bareMicroseconds).toFixed(1)} x` : '';
    return `| ${costNames[key]} | ${value.toFixed(1)} ${isTime ? 'us' : 'bytes'} | ${ratio} |`;
  });
  return ['| work | cost | of bare |', '| --- | --- | --- |', ...rows, ''].join('\n');
}

/** The table read back, so that the plan on the page is worked out from the figures on the page. */
export function readCosts(page: string): Costs {
  const values = Object.entries(costNames).map(([key, name]) => {
    const line = page.split('\n').find((each) => each.startsWith(`| ${name} |`));
    const value = Number(/\| ([\d.]+) (?:us|bytes) \|/.exec(line ?? '')?.[1]);
    if (!Number.isFinite(value)) throw new Error(`the page has no cost "${name}"`);
    return [key, value];
  });
  return Object.fromEntries(values) as Costs;
}

/** As the page shows them, so that what is worked out from the page is worked out from these. */
export function rounded(costs: Costs): Costs {
  const entries = Object.entries(costs).map(([key, value]) => [key, Math.round(value * 10) / 10]);
  return Object.fromEntries(entries) as Costs;
}
