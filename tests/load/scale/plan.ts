import type { Costs } from './costs.ts';

/** What is to be carried. */
export interface Load {
  readonly name: string;
  readonly yards: number;
  readonly probes: number;
}

/** Our choices for the plan, said on the page. */
export const assumed = {
  channelsPerProbe: 4,
  minutesBetweenMessages: 5,
  probesPerPile: 2,
  judgementsPerPileHour: 60,
  statusesPerPileHour: 60,
  alarmStepsPerPileMonth: 10,
  /** Processors are planned to be this busy and no more: readings come in bursts after an outage. */
  busy: 0.5,
} as const;

export const loads: readonly Load[] = [
  { name: '100 yards, 100,000 probes', yards: 100, probes: 100_000 },
  { name: '10 million probes (10,000 yards)', yards: 10_000, probes: 10_000_000 },
];

interface Line {
  readonly what: string;
  /** Units a second. */
  readonly rate: number;
  readonly microseconds: number;
}

const monthSeconds = 30 * 86_400;
const daySeconds = 86_400;

/** Rates that follow from a load. */
export function ratesOf({ probes }: Load) {
  const messages = probes / (assumed.minutesBetweenMessages * 60);
  const piles = probes / assumed.probesPerPile;
  return {
    messages,
    readings: messages * assumed.channelsPerProbe,
    piles,
    judgements: (piles * assumed.judgementsPerPileHour) / 3600,
    statuses: (piles * assumed.statusesPerPileHour) / 3600,
    alarmSteps: (piles * assumed.alarmStepsPerPileMonth) / monthSeconds,
  };
}

function linesOf(load: Load, costs: Costs): Line[] {
  const rates = ratesOf(load);
  // A message of four costs more to take in than one of one by as much as it does at the built-in broker.
  const taken =
    costs.messageTakenMicroseconds + costs.messageOfFourMicroseconds - costs.messageOfOneMicroseconds;
  return [
    { what: 'MQTT broker', rate: rates.messages, microseconds: costs.brokerMicroseconds },
    { what: 'ingest', rate: rates.messages, microseconds: taken },
    { what: 'readings in PostgreSQL', rate: rates.readings, microseconds: costs.readingPostgresMicroseconds },
    { what: 'rules', rate: rates.judgements, microseconds: costs.judgementMicroseconds },
    { what: 'forwarding', rate: rates.readings, microseconds: costs.forwardMicroseconds },
    { what: 'InfluxDB', rate: rates.readings, microseconds: costs.influxMicroseconds },
    { what: 'records: statuses', rate: rates.statuses, microseconds: costs.statusPostgresMicroseconds },
    { what: 'records: alarms', rate: rates.alarmSteps, microseconds: costs.alarmPostgresMicroseconds },
  ];
}

/** Cores of one work: rate times cost, over how busy they may be. */
export function coresOf({ rate, microseconds }: Pick<Line, 'rate' | 'microseconds'>): number {
  return (rate * microseconds) / 1e6 / assumed.busy;
}

const count = (value: number) =>
  value >= 100 ? Math.round(value).toLocaleString('en-GB') : value.toPrecision(2);

/** The arithmetic of one load, line by line. */
export function planTable(load: Load, costs: Costs): string {
  const rates = ratesOf(load);
  const rows = linesOf(load, costs).map((line) => {
    const { what, rate, microseconds } = line;
    const sum = `${count(rate)}/s x ${microseconds.toFixed(1)} us / ${assumed.busy}`;
    return `| ${what} | ${sum} | ${count(coresOf(line))} |`;
  });
  const terabytes = (bytes: number) => count((rates.readings * daySeconds * bytes) / 1e12);
  const space = [
    `| readings in PostgreSQL, a day | ${count(rates.readings)}/s x 86,400 s x ${costs.postgresBytes.toFixed(1)} bytes | ${terabytes(costs.postgresBytes)} TB |`,
    `| InfluxDB, a day | ${count(rates.readings)}/s x 86,400 s x ${costs.influxBytes.toFixed(1)} bytes | ${terabytes(costs.influxBytes)} TB |`,
  ];
  const head = `${load.name}: ${count(rates.messages)} messages/s, ${count(rates.readings)} readings/s, ${count(rates.piles)} piles`;
  return [head, '', '| work | arithmetic | cores |', '| --- | --- | --- |', ...rows, ...space, ''].join('\n');
}

/** What one box of two cores carries when one of them is given to each work in turn: the smallest is the limit. */
export function limitTable(costs: Costs): string {
  const perCore = (microseconds: number) => (1e6 * assumed.busy) / microseconds;
  const seconds = assumed.minutesBetweenMessages * 60;
  const probes = perCore(costs.messageOfFourMicroseconds) * seconds;
  const piles = perCore(costs.judgementMicroseconds) * (3600 / assumed.judgementsPerPileHour);
  const forwarded = (perCore(costs.forwardMicroseconds) / assumed.channelsPerProbe) * seconds;
  const rows = [
    [
      'taking in and storing',
      `probes, a message of four every ${assumed.minutesBetweenMessages} min`,
      probes,
    ],
    ['judging', 'piles, once a minute', piles],
    ['forwarding to InfluxDB', 'probes, as above', forwarded],
  ] as const;
  const lines = rows.map(([work, unit, limit]) => `| ${work} | ${count(limit)} ${unit} |`);
  return ['| one core half busy with | carries |', '| --- | --- |', ...lines, ''].join('\n');
}

/** Both loads in short, for DEVELOPERS.md: what comes in and how many half-busy cores all of it takes. */
export function summaryTable(costs: Costs): string {
  const rows = loads.map((load) => {
    const rates = ratesOf(load);
    const cores = linesOf(load, costs).reduce((sum, line) => sum + coresOf(line), 0);
    return `| ${load.name} | ${count(rates.readings)} readings/s | ${count(rates.judgements)} piles judged/s | ${count(cores)} cores, half busy |`;
  });
  return ['| load | comes in | judged | takes |', '| --- | --- | --- | --- |', ...rows, ''].join('\n');
}
