import { connectAsync, type MqttClient } from 'mqtt';
import { encodeSenmlCbor, encodeSenmlJson } from '../../shared/senml/encodeSenml.ts';
import type { SenmlRecord } from '../../shared/senml/record.ts';

export interface ProbeAccount {
  readonly brokerUrl: string;
  readonly yardId: string;
  /** DEV URN; also the MQTT user name. */
  readonly probeId: string;
  readonly secret: string;
  readonly format: 'json' | 'cbor';
}

/** One measurement of one channel, as a probe knows it. */
export interface ProbeMeasurement {
  readonly channel: string;
  readonly unit: string;
  readonly value: number;
  readonly timeMs: number;
}

export interface ProbePublisher {
  /** Sends one pack at QoS 1; resolves once the broker has acknowledged it. */
  publish(measurements: readonly ProbeMeasurement[]): Promise<void>;
  stop(): Promise<void>;
}

/** Signs in as a probe does and publishes SenML packs to its own topic. */
export async function connectProbe(account: ProbeAccount): Promise<ProbePublisher> {
  const client: MqttClient = await connectAsync(account.brokerUrl, {
    clientId: account.probeId,
    username: account.probeId,
    password: account.secret,
    clean: true,
    reconnectPeriod: 1000,
  });
  const topic = `tilth/${account.yardId}/${account.probeId}/readings`;
  const encode = account.format === 'cbor' ? encodeSenmlCbor : encodeSenmlJson;
  return {
    async publish(measurements) {
      if (measurements.length === 0) return;
      await client.publishAsync(topic, Buffer.from(encode(packOf(account.probeId, measurements))), {
        qos: 1,
      });
    },
    async stop() {
      await client.endAsync(true);
    },
  };
}

function packOf(probeId: string, measurements: readonly ProbeMeasurement[]): SenmlRecord[] {
  const baseSeconds = measurements[0]!.timeMs / 1000;
  return measurements.map(({ channel, unit, value, timeMs }, index) => ({
    ...(index === 0 && { bn: `${probeId}_`, bt: baseSeconds }),
    n: channel,
    u: unit,
    v: value,
    ...(timeMs / 1000 !== baseSeconds && { t: timeMs / 1000 - baseSeconds }),
  }));
}
