import { z } from 'zod';
import { mappingRuleSchema } from '../../shared/readings/mappingSchema.ts';
import {
  emailSchema,
  modemSchema,
  smsGatewaySchema,
  watchSchema,
  webhookSchema,
  webPushSchema,
} from '../notify/port.ts';
import { influxSettingsSchema } from '../series/influx/settings.ts';
import { checkSplit, onlySchema } from './services.ts';

const port = z.int().min(0).max(65535);
const tls = z
  .strictObject({
    certificateFile: z.string().describe('PEM certificate chain'),
    keyFile: z.string().describe('PEM private key'),
  })
  .nullable();

interface BrokerTlsFields {
  readonly externalUrl: string | null;
  readonly externalCaFile: string | null;
  readonly externalCertificateFile: string | null;
  readonly externalKeyFile: string | null;
}

/** Certificates that would be silently left out are refused. */
function checkBrokerTls(broker: BrokerTlsFields, context: z.RefinementCtx): void {
  const { externalUrl, externalCaFile, externalCertificateFile, externalKeyFile } = broker;
  const refuse = (field: keyof BrokerTlsFields, message: string) =>
    context.addIssue({ code: 'custom', path: [field], message });
  if (externalCertificateFile !== null && externalKeyFile === null)
    refuse('externalKeyFile', 'give the private key of broker.externalCertificateFile');
  if (externalKeyFile !== null && externalCertificateFile === null)
    refuse('externalCertificateFile', 'give the certificate of broker.externalKeyFile');
  const hasTls = externalUrl !== null && /^(mqtts|wss):/.test(externalUrl);
  if (!hasTls && (externalCaFile ?? externalCertificateFile) !== null)
    refuse('externalUrl', 'certificates need an address that begins with mqtts: or wss:');
}

const fields = z.strictObject({
  only: onlySchema
    .nullable()
    .default(null)
    .describe('Services this process runs, e.g. ingest,rules (see above); null runs all of them'),
  dataFolder: z.string().min(1).default('./data').describe('Folder for everything this yard stores'),
  log: z
    .strictObject({
      level: z
        .enum(['silent', 'error', 'warn', 'info', 'debug'])
        .default('info')
        .describe('Least important line that is logged'),
    })
    .prefault({}),
  http: z
    .strictObject({
      host: z
        .string()
        .default('127.0.0.1')
        .describe('Address the screens and the API listen on; loopback until told otherwise'),
      port: port.default(8477).describe('Port of the screens and the API; 0 takes a free one'),
      publicUrl: z
        .url()
        .nullable()
        .default(null)
        .describe('Address people reach this yard by; it is put into texts. Null: made from host and port'),
      trustProxy: z
        .boolean()
        .default(false)
        .describe(
          'True only behind a reverse proxy of your own: client addresses are then read from X-Forwarded-For',
        ),
      metricsToken: z
        .string()
        .min(16)
        .nullable()
        .default(null)
        .describe(
          'Bearer token by which a monitor on another machine may read /metrics; null: this machine only',
        ),
      tls: tls.default(null).describe('Serve HTTPS with this certificate; null serves plain HTTP'),
    })
    .prefault({}),
  health: z
    .strictObject({
      host: z
        .string()
        .default('127.0.0.1')
        .describe('Address of /healthz, /readyz and /metrics in a process that runs no screens'),
      port: port
        .default(8478)
        .describe('Port of these; 0 takes a free one. With screens they are at http.port'),
    })
    .prefault({}),
  broker: z
    .strictObject({
      host: z
        .string()
        .default('127.0.0.1')
        .describe('Address the built-in MQTT broker listens on; loopback until told otherwise'),
      port: port.default(1883).describe('Port of the built-in MQTT broker; 0 takes a free one'),
      tls: tls
        .default(null)
        .describe('Serve MQTT over TLS with this certificate (usual port 8883); null serves plain TCP'),
      webSocketPort: port
        .nullable()
        .default(null)
        .describe(
          'Port of MQTT over WebSocket beside the other one, with the same TLS; 0 takes a free one, null: none',
        ),
      maxPayloadBytes: z
        .int()
        .min(1024)
        .max(16_777_216)
        .default(262_144)
        .describe('Largest payload of one reading message, bytes'),
      externalUrl: z
        .url({ protocol: /^(mqtts?|wss?)$/ })
        .nullable()
        .default(null)
        .describe(
          'MQTT broker of your own, e.g. mqtt://192.0.2.10:1883; when given, the built-in broker is off',
        ),
      externalUser: z.string().nullable().default(null).describe('User name at your own broker'),
      externalPassword: z.string().min(1).nullable().default(null).describe('Password at your own broker'),
      externalProtocol: z
        .enum(['3.1.1', '5'])
        .default('5')
        .describe('MQTT version spoken to your own broker'),
      externalClientId: z
        .string()
        .min(1)
        .max(64)
        .default('tilthwatch-ingest')
        .describe('Client id at your own broker; its session is kept under it'),
      sharedSessions: z
        .int()
        .min(1)
        .max(64)
        .default(1)
        .describe(
          'Sessions that share the readings of your own broker (MQTT 5 shared subscription); each is held by one ingest process, so give at least as many as there are',
        ),
      externalCaFile: z
        .string()
        .min(1)
        .nullable()
        .default(null)
        .describe('PEM certificates that vouch for your own broker; null: those the machine trusts'),
      externalCertificateFile: z
        .string()
        .min(1)
        .nullable()
        .default(null)
        .describe('PEM certificate by which your own broker knows us; null: none'),
      externalKeyFile: z
        .string()
        .min(1)
        .nullable()
        .default(null)
        .describe('PEM private key of that certificate'),
    })
    .superRefine(checkBrokerTls)
    .prefault({}),
  ingest: z
    .strictObject({
      groupMilliseconds: z
        .int()
        .min(0)
        .max(1000)
        .default(10)
        .describe('How long readings are gathered before one commit, ms'),
      futureToleranceSeconds: z
        .int()
        .min(0)
        .max(86_400)
        .default(300)
        .describe('How far ahead of our clock a reading may be, s'),
      quarantineItems: z
        .int()
        .min(10)
        .max(100_000)
        .default(500)
        .describe('How many undecodable messages are kept for a look'),
      mappings: z
        .array(mappingRuleSchema)
        .default([])
        .describe('How messages of other senders become readings'),
    })
    .prefault({}),
  series: z
    .strictObject({
      rawDays: z
        .int()
        .min(7)
        .max(36_500)
        .nullable()
        .default(null)
        .describe(
          'Days raw readings are kept; null keeps them for ever. Hourly and daily roll-ups always stay',
        ),
      postgresUrl: z
        .string()
        .min(1)
        .nullable()
        .default(null)
        .describe(
          'PostgreSQL connection string for readings, which services in several processes need; null keeps them in SQLite in the data folder',
        ),
      influx: influxSettingsSchema
        .nullable()
        .default(null)
        .describe(
          'InfluxDB that every reading is forwarded to after it was stored here; null keeps them here only',
        ),
    })
    .superRefine(({ rawDays, influx }, context) => {
      if (rawDays === null || influx?.version !== '3') return;
      const message =
        'InfluxDB 3 cannot be told to remove readings: leave this null and set the retention there';
      context.addIssue({ code: 'custom', path: ['rawDays'], message });
    })
    .prefault({}),
  records: z
    .strictObject({
      postgresUrl: z
        .string()
        .min(1)
        .nullable()
        .default(null)
        .describe('PostgreSQL connection string; null keeps the records in SQLite in the data folder'),
      postgresBackup: z
        .enum(['dump', 'own'])
        .default('dump')
        .describe(
          'Before a new version changes the schema: "dump" has pg_dump copy the records into the data folder and does not start without; "own" leaves that to you',
        ),
    })
    .prefault({}),
  sms: smsGatewaySchema.nullable().default(null).describe('HTTP gateway that sends texts; null sends none'),
  modem: modemSchema
    .nullable()
    .default(null)
    .describe('GSM modem that sends texts without internet; null: none'),
  email: emailSchema.nullable().default(null).describe('Mail server that takes our mail; null sends none'),
  webPush: webPushSchema.nullable().default(null).describe('Messages to browsers; null sends none'),
  watch: watchSchema.prefault({}),
  webhook: webhookSchema
    .nullable()
    .default(null)
    .describe('Signed calls to web addresses of recipients; null sends none'),
});

/** The one schema of the configuration. Every field says what it is; defaults make an empty file valid. */
export const configurationSchema = fields.superRefine(checkSplit);

export type Configuration = z.infer<typeof configurationSchema>;
