import type { MetricFamily, OperationsPort } from '../web/port.ts';
import { createJudgementWatch, type JudgementWatch } from './judgementWatch.ts';
import { alarmFamilies, messageFamilies } from './metrics/alarmMetrics.ts';
import { brokerFamilies, ingestFamilies, sourceFamilies } from './metrics/arrivalMetrics.ts';
import { counter, gauge } from './metrics/family.ts';
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
      return [...arrivals(sources), ...(await Promise.all(parts)).flat()];
    },
    stop: meter.stop,
  };
}

function arrivals({ ingest, broker, source, clock }: Sources): MetricFamily[] {
  const line = source();
  return [
    ...(ingest === null ? [] : ingestFamilies(ingest.statistics(), clock.nowMs())),
    ...(broker === null ? [] : brokerFamilies(broker.statistics())),
    ...(line === null ? [] : sourceFamilies(line.isConnected())),
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
  { records, seriesGauge, forwarder, clock }: Sources,
  judgement: JudgementWatch | null,
): Promise<MetricFamily[]> {
  const cursor = Number((await records.marks.get('rules:cursor')) ?? 0);
  const lag = judgement === null ? null : (await judgement.look()).seconds;
  return [
    ...seriesFamilies(seriesGauge.lastSequence(), seriesGauge.usedBytes(), cursor),
    gauge('tilth_judgement_lag_seconds', 'How long judgement takes to come up to what is stored.', lag),
    ...(forwarder === null ? [] : forwardFamilies(forwarder.status(), clock.nowMs())),
  ];
}
