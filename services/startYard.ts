import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Logger } from 'pino';
import { probeCredentials } from './broker/probeCredentials.ts';
import { type RunningBroker, startBroker } from './broker/startBroker.ts';
import type { Clock } from './clock.ts';
import type { Configuration } from './configuration/schema.ts';
import { createIngest, type Ingest } from './ingest/createIngest.ts';
import { type MqttSource, type MqttSourceOptions, startMqttSource } from './ingest/mqttSource.ts';
import { type Duty, startDuty } from './notify/duty/startDuty.ts';
import { createGatewayCallbacks } from './notify/gatewayCallbacks/createGatewayCallbacks.ts';
import { openChannels } from './notify/openChannels.ts';
import { type InboundOptions, openInbound } from './notify/openInbound.ts';
import type { GatewayCallbackPort } from './notify/port.ts';
import { startNotify } from './notify/startNotify.ts';
import { createOperations } from './operate/createOperations.ts';
import { programVersion } from './programVersion.ts';
import { openRecords, type RecordsOptions } from './records/openRecords.ts';
import type { Records } from './records/port.ts';
import type { RulesConfig } from './rules/options.ts';
import { startServiceWatch } from './rules/serviceWatch.ts';
import { type Rules, startRules } from './rules/startRules.ts';
import type { Forwarder } from './series/forward/startForwarder.ts';
import { type ForwardStatus, forwardStatistics, usedFraction } from './series/forward/status.ts';
import { openSeries } from './series/openSeries.ts';
import type { SeriesStore } from './series/port.ts';
import { startTrimming } from './startTrimming.ts';
import { startWeb, type Web, type WebConfig } from './web/startWeb.ts';

export interface YardOptions {
  readonly configuration: Configuration;
  /** The yard's time; the demo's runs fast. */
  readonly clock: Clock;
  readonly logger: Logger;
  /** When to look what is to be told because time has passed (cron with seconds); more often where time runs fast. */
  readonly dutyTick?: string;
  /** How long a text being sent stays ours, in the yard's time; longer where that runs fast. */
  readonly leaseMs?: number;
  /** Times of judgement that must differ where the yard's time runs fast. */
  readonly judgement?: Omit<RulesConfig, 'publicUrl'>;
}

export interface RunningYard {
  readonly records: Records;
  readonly series: SeriesStore;
  /** Gives InfluxDB what is stored; null where there is none. */
  readonly forwarder: Forwarder | null;
  readonly ingest: Ingest;
  /** Null where readings come from a broker of the yard's own. */
  readonly broker: RunningBroker | null;
  readonly web: Web;
  /** Stops in the order readings travel, so that everything acknowledged is stored and judged or waits for the next start. */
  stop(): Promise<void>;
}

/** All services in one process, in the order a reading travels: broker, ingest, series, rules, notify, web. */
export async function startYard({
  configuration,
  clock,
  logger,
  leaseMs,
  judgement,
  dutyTick,
}: YardOptions): Promise<RunningYard> {
  const { dataFolder } = configuration;
  mkdirSync(dataFolder, { recursive: true });
  const records = await openRecords(recordsOptions(configuration), logger);
  // What is stored and judged is the local store; only screens may ask further back, of InfluxDB.
  const opened = await openSeries({ folder: dataFolder, influx: configuration.series.influx, clock, logger });
  const { local, series, forwarder } = opened;
  // Services that are told of things before they have started hear nothing: they look for themselves when they start.
  const late: { rules?: Rules; duty?: Duty; web?: Web; source?: MqttSource | null; isListening?: boolean } =
    {};
  const ingest = createIngest({
    series: local,
    records,
    clock,
    logger,
    settings: configuration.ingest,
    onStored: () => late.rules?.nudge(),
    onQuarantined: (yardId) => late.web?.announce([{ kind: 'quarantine', yardId }]),
  });
  const inbound: InboundOptions = {
    ...{ records, clock, logger, rules: () => late.rules ?? null },
    onChanged: ({ yardId, pileId }) => {
      notify.nudge();
      late.web?.announce([
        { kind: 'messages', yardId },
        ...(pileId === null ? [] : [{ kind: 'pile', pileId, yardId } as const]),
      ]);
    },
  };
  const channels = await openChannels({
    ...{ configuration, dataFolder, logger, nowMs: clock.nowMs },
    sink: openInbound(inbound, 'sms-modem'),
  });
  const notify = startNotify({
    records,
    clock,
    logger,
    channels,
    publicUrl: () => late.web?.publicUrl ?? null,
    ...(leaseMs === undefined ? {} : { leaseMs }),
    onAttempt: ({ yardId }) => late.web?.announce([{ kind: 'messages', yardId }]),
    onTrouble: (trouble) => {
      late.duty
        ?.tellTrouble(trouble)
        .catch((error: unknown) => logger.error({ err: error }, 'trouble untold'));
    },
  });
  const serviceWatch = startServiceWatch({
    dataFolder,
    clock,
    isBrokerConnected: () => late.isListening ?? late.source?.isConnected() ?? null,
    isDatabaseReachable: async () => {
      await records.marks.get('rules:cursor');
      return forwarder === null || isForwarding(forwarder.status());
    },
    localSpaceUsedFraction: () => (forwarder === null ? null : usedFraction(forwarder.status().disk)),
    oldestMessageMs: async () => (await records.messages.standing()).oldestWaitingMs,
  });
  const rules = await startRules({
    records,
    series: local,
    clock,
    logger,
    config: {
      publicUrl: () => late.web?.publicUrl ?? null,
      smsChannel: textChannel(configuration),
      canReply: hearsTexts(configuration),
      ...judgement,
    },
    services: serviceWatch.facts,
    onCommitted: (changes, messages) => {
      late.web?.announce(changes);
      if (messages > 0) notify.nudge();
    },
  });
  late.rules = rules;
  const broker = await openBroker(configuration, ingest, records, clock, logger);
  if (broker !== null) late.isListening = true;
  const operations = createOperations({
    ...{ records, series: local, seriesGauge: opened.gauge, ingest, broker, forwarder, rules, clock },
    source: () => late.source ?? null,
    dataFolder,
    version: programVersion,
  });
  const web = await startWeb({
    records,
    series,
    rules,
    notify,
    channels: notify,
    gateway: gatewayCalls(configuration, inbound),
    clock,
    logger,
    config: webConfig(configuration, broker),
    wordsFor: rules.wordsFor,
    explain: rules.explain,
    statistics: () => ({ ...ingest.statistics(), ...forwardStatistics(forwarder?.status() ?? null) }),
    operations,
    onFactsChanged: ({ probeId }) => {
      ingest.knowledgeChanged();
      if (probeId !== undefined) broker?.disconnectProbe(probeId);
    },
  });
  late.web = web;
  const source =
    broker === null ? startMqttSource(sourceOptions(configuration, ingest, clock, logger)) : null;
  late.source = source;
  const duty = startDuty({
    ...{ records, clock, logger, settings: configuration.watch, onWritten: notify.nudge },
    textChannel: textChannel(configuration),
    canReply: hearsTexts(configuration),
    publicUrl: () => web.publicUrl,
    wordsFor: async (alarm) => (await rules.wordsFor?.(alarm)) ?? null,
    ...(dutyTick === undefined ? {} : { tick: dutyTick }),
  });
  late.duty = duty;
  const trimming = startTrimming(series, { rawDays: configuration.series.rawDays }, clock, logger);
  return {
    records,
    series,
    forwarder,
    ingest,
    broker,
    web,
    async stop() {
      await source?.stop();
      await broker?.stop();
      await ingest.settled();
      trimming.stop();
      operations.stop();
      serviceWatch.stop();
      await duty.stop();
      await web.stop();
      await rules.stop();
      await notify.stop();
      await opened.close();
      await records.close();
    },
  };
}

/** InfluxDB has, or is being given, what is stored. */
function isForwarding({ state }: ForwardStatus): boolean {
  return state === 'caught-up' || state === 'catching-up';
}

function recordsOptions({ dataFolder, records, ingest }: Configuration): RecordsOptions {
  const quarantineKeep = ingest.quarantineItems;
  if (records.postgresUrl !== null)
    return { kind: 'postgres', connectionString: records.postgresUrl, quarantineKeep };
  return { kind: 'sqlite', file: join(dataFolder, 'records.sqlite'), quarantineKeep };
}

async function openBroker(
  { broker, ingest: { mappings } }: Configuration,
  ingest: Ingest,
  records: Records,
  clock: Clock,
  logger: Logger,
): Promise<RunningBroker | null> {
  if (broker.externalUrl !== null) return null;
  const mappedFilters = mappings.map(({ topicFilter }) => topicFilter);
  return startBroker({
    config: broker,
    ingest,
    credentials: probeCredentials(records.probes),
    mappedFilters,
    clock,
    logger,
  });
}

function sourceOptions(
  { broker, ingest: { mappings } }: Configuration,
  ingest: Ingest,
  clock: Clock,
  logger: Logger,
): MqttSourceOptions {
  const config = {
    url: broker.externalUrl!,
    user: broker.externalUser,
    password: broker.externalPassword,
    protocol: broker.externalProtocol,
    clientId: broker.externalClientId,
    caFile: broker.externalCaFile,
    certificateFile: broker.externalCertificateFile,
    keyFile: broker.externalKeyFile,
  };
  return { config, mappedFilters: mappings.map(({ topicFilter }) => topicFilter), ingest, clock, logger };
}

function webConfig(configuration: Configuration, running: RunningBroker | null): WebConfig {
  const { http, broker } = configuration;
  return {
    host: http.host,
    port: http.port,
    publicUrl: http.publicUrl,
    secureCookies: null,
    dashboardsFolder: fileURLToPath(new URL('../dashboards/dist', import.meta.url)),
    trustProxy: http.trustProxy,
    tls: http.tls && {
      certificate: readFileSync(http.tls.certificateFile, 'utf8'),
      key: readFileSync(http.tls.keyFile, 'utf8'),
    },
    mqtt: brokerAddress(broker, running),
    textChannel: textChannel(configuration),
    canReply: hearsTexts(configuration),
    metricsToken: http.metricsToken,
  };
}

function gatewayCalls({ sms }: Configuration, inbound: InboundOptions): GatewayCallbackPort | null {
  if (sms === null || sms.callbacks === null) return null;
  return createGatewayCallbacks(sms.callbacks, openInbound(inbound, 'sms-http'), inbound.clock.nowMs);
}

/** Texts go through the gateway, and through the modem where there is no gateway. */
function textChannel({ sms, modem }: Configuration): WebConfig['textChannel'] {
  return sms === null && modem !== null ? 'sms-modem' : 'sms-http';
}

/** Whether somebody who texts back is heard. */
function hearsTexts(configuration: Configuration): boolean {
  if (textChannel(configuration) === 'sms-modem') return true;
  return (configuration.sms?.callbacks?.inbound ?? null) !== null;
}

/** What a new probe is told: our own broker's address, or that of the yard's. */
function brokerAddress(broker: Configuration['broker'], running: RunningBroker | null): WebConfig['mqtt'] {
  if (running !== null) return { host: broker.host, port: running.port, tls: broker.tls !== null };
  const { hostname, port, protocol } = new URL(broker.externalUrl!);
  const tls = protocol === 'mqtts:' || protocol === 'wss:';
  return { host: hostname, port: port === '' ? (tls ? 8883 : 1883) : Number(port), tls };
}
