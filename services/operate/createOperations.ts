import type { MetricFamily, OperationsPort } from '../web/port.ts';
import { createJudgementWatch, type JudgementWatch } from './judgementWatch.ts';
import { alarmFamilies, messageFamilies } from './metrics/alarmMetrics.ts';
import { brokerFamilies, ingestFamilies, sourceFamilies } from './metrics/arrivalMetrics.ts';
import { counter, gauge, gauges, info } from './metrics/family.ts';
import { startProcessMeter } from './metrics/processMetrics.ts';
import { forwardFamilies, seriesFamilies } from './metrics/seriesMetrics.ts';
import { checkReadiness } from './readiness.ts';
import type { Sources } from './sources.ts';

export interface Operations extends OperationsPort {
  stop(): void;
}

/** What `/readyz` and `/metrics` tell of a running program. */
export function createOperations(sources: Sources): Operations {
  const meter = startProcessMeter(sources.dataFolder, sources.version);
  const judgement = sources.rules === null ? null : createJudgementWatch(sources.rules);
  return {
    readiness: () => checkReadiness(sources, judgement),
    async metrics() {
      const parts = [meter.families(), recordFamilies(sources), seriesAndJudgement(sources, judgement)];
      return [...processFamilies(sources), ...arrivals(sources), ...(await Promise.all(parts)).flat()];
    },
    stop: meter.stop,
  };
}

/** Which services this process runs, and how it stands among others. */
function processFamilies({ services, changes, rules, processId }: Sources): MetricFamily[] {
  return [
    info('tilth_process', 'This process among those of the yard, as leases name it.', { id: processId }),
    gauges(
      'tilth_process_service',
      '1 for each service this process runs.',
      services.map((service) => ({ labels: { service }, value: 1 })),
    ),
    gauge(
      'tilth_process_hears_others',
      '1 while changes of other processes are heard.',
      changes.isConnected() ? 1 : 0,
    ),
    ...(rules === null
      ? []
      : [gauge('tilth_judgement_yards', 'Yards judged by this process.', rules.yardCount())]),
  ];
}

/** As far as the yard that is judged least far; 0 when nothing is known. */
async function judgementCursor({ records }: Sources): Promise<number> {
  const own = [...(await records.marks.withPrefix('rules:cursor:')).values()].map(Number);
  return own.length > 0 ? Math.min(...own) : Number((await records.marks.get('rules:cursor')) ?? 0);
}

function arrivals({ ingest, broker, source, clock }: Sources): MetricFamily[] {
  const isConnected = source()?.isConnected() ?? null;
  return [
    ...(ingest === null ? [] : ingestFamilies(ingest.statistics(), clock.nowMs())),
    ...(broker === null ? [] : brokerFamilies(broker.statistics())),
    ...(isConnected === null ? [] : sourceFamilies(isConnected)),
  ];
}

async function recordFamilies({ records, clock }: Sources): Promise<MetricFamily[]> {
  const [alarms, messages, quarantined] = await Promise.all([
    records.alarms.counts(),
    records.messages.standing(),
    records.quarantine.total(),
  ]);
  return [
    ...alarmFamilies(alarms),
    ...messageFamilies(messages, clock.nowMs()),
    counter('tilth_quarantine_items', 'Messages ever kept for a person to look at.', quarantined),
  ];
}

async function seriesAndJudgement(
  sources: Sources,
  judgement: JudgementWatch | null,
): Promise<MetricFamily[]> {
  const { seriesGauge, clock } = sources;
  const cursor = await judgementCursor(sources);
  const forwarder = sources.forwarder();
  const lag = judgement === null ? null : (await judgement.look()).seconds;
  return [
    ...seriesFamilies(seriesGauge.lastSequence(), seriesGauge.usedBytes(), cursor),
    ...(judgement === null
      ? []
      : [
          gauge('tilth_judgement_lag_seconds', 'How long judgement takes to come up to what is stored.', lag),
        ]),
    ...(forwarder === null ? [] : forwardFamilies(forwarder.status(), clock.nowMs())),
  ];
}
