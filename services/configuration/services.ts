import { z } from 'zod';

/** What a process can be told to run with `--only`, in the order a reading travels. */
export const serviceNames = ['broker', 'ingest', 'series', 'rules', 'notify', 'web'] as const;
export type ServiceName = (typeof serviceNames)[number];

/** What each does, and what it needs, for `--help`. */
export const serviceTexts: Readonly<Record<ServiceName, string>> = {
  broker: 'the built-in MQTT broker; only beside ingest, and only without broker.externalUrl',
  ingest: 'takes readings in, checks and stores them; needs broker beside it, or broker.externalUrl',
  series: 'looks after the stored readings: forwards to InfluxDB, removes what is past its keeping',
  rules: 'judges piles; several share the yards, and take over from one that dies',
  notify: 'sends what is to be told; one of several also minds duty, digests and the heartbeat',
  web: 'screens, API and live events; several may stand behind a load balancer',
};

const isService = (name: string): name is ServiceName => (serviceNames as readonly string[]).includes(name);

/** `ingest,rules`, or a list. Field errors name the word that is no service. */
export const onlySchema = z.preprocess(
  (given) =>
    typeof given === 'string'
      ? given
          .split(',')
          .map((name) => name.trim())
          .filter((name) => name !== '')
      : given,
  z
    .array(z.string())
    .superRefine((names, context) => {
      const unknown = names.filter((name) => !isService(name));
      const refuse = (message: string) => context.addIssue({ code: 'custom', path: [], message });
      if (unknown.length > 0)
        refuse(`${unknown.join(', ')}: no such service; allowed: ${serviceNames.join(', ')}`);
      else if (names.length === 0) refuse(`names no service; allowed: ${serviceNames.join(', ')}`);
    })
    .transform((names) => serviceNames.filter((name) => names.includes(name))),
);

/** What of the configuration decides which services can run beside each other. */
export interface SplitFields {
  readonly only: readonly ServiceName[] | null;
  readonly broker: {
    readonly externalUrl: string | null;
    readonly externalProtocol: '3.1.1' | '5';
    readonly sharedSessions: number;
  };
  readonly series: { readonly postgresUrl: string | null };
  readonly records: { readonly postgresUrl: string | null };
}

/** Refuses combinations that cannot work, naming the field to change. */
export function checkSplit(fields: SplitFields, context: z.RefinementCtx): void {
  const refuse = (path: string[], message: string) => context.addIssue({ code: 'custom', path, message });
  const { only, broker, series, records } = fields;
  if (broker.sharedSessions > 1 && broker.externalUrl === null)
    refuse(
      ['broker', 'sharedSessions'],
      'the built-in broker has no shared subscriptions: leave it 1, or give broker.externalUrl',
    );
  if (broker.sharedSessions > 1 && broker.externalProtocol !== '5')
    refuse(['broker', 'sharedSessions'], 'shared subscriptions are MQTT 5: set broker.externalProtocol to 5');
  if (series.postgresUrl !== null && records.postgresUrl === null)
    refuse(
      ['records', 'postgresUrl'],
      'readings in PostgreSQL go with records in PostgreSQL: give its connection string',
    );
  if (only === null) return;
  if (only.includes('broker') && broker.externalUrl !== null)
    refuse(
      ['only'],
      'the built-in broker is off while broker.externalUrl is given: leave broker out, or that field',
    );
  if (only.includes('broker') && !only.includes('ingest'))
    refuse(
      ['only'],
      'the built-in broker acknowledges what ingest beside it has stored: name ingest too, or leave broker out and give broker.externalUrl',
    );
  if (only.includes('ingest') && !only.includes('broker') && broker.externalUrl === null)
    refuse(
      ['only'],
      'ingest has no broker to take readings from: name broker too, or give broker.externalUrl',
    );
  if (runsEverything(fields)) return;
  const why =
    'services in several processes meet in PostgreSQL (SQLite is for one process): give its connection string, or leave out only';
  for (const part of ['records', 'series'] as const)
    if (fields[part].postgresUrl === null) refuse([part, 'postgresUrl'], why);
}

/** One process is the whole yard; a broker of the yard's own takes the place of the built-in one. */
export function runsEverything({ only, broker }: Pick<SplitFields, 'only' | 'broker'>): boolean {
  if (only === null) return true;
  const needed = serviceNames.filter((name) => name !== 'broker' || broker.externalUrl === null);
  return needed.every((name) => only.includes(name));
}

/** Whether this process runs a service. */
export function runs({ only, broker }: Pick<SplitFields, 'only' | 'broker'>, name: ServiceName): boolean {
  if (name === 'broker' && broker.externalUrl !== null) return false;
  return only === null || only.includes(name);
}

/** Whether other processes may work beside this one: everything they share is in PostgreSQL. */
export function isShared({ records, series }: Pick<SplitFields, 'records' | 'series'>): boolean {
  return records.postgresUrl !== null && series.postgresUrl !== null;
}
