import type { Share, WorkSharing } from '../sharing/port.ts';
import { type MqttSource, type MqttSourceOptions, startMqttSource } from './mqttSource.ts';

export interface MqttSourcesOptions extends Omit<MqttSourceOptions, 'sharedGroup'> {
  /** Sessions that share the readings; one takes them all. */
  readonly sharedSessions: number;
  readonly sharing: Pick<WorkSharing, 'share'>;
}

export interface MqttSources {
  /** Null while no session is ours: other processes have them all. */
  isConnected(): boolean | null;
  /** Sessions held here. */
  sessions(): number;
  stop(): Promise<void>;
}

/**
 * The sessions at the broker that are ours to hold. A broker keeps what it has given to a session for that session alone
 * (tried with Mosquitto: it is not passed on, and lost with the session), so sessions outlive processes: each is a piece
 * of work that another process takes over when its holder dies, together with everything that waits in it.
 */
export function startMqttSources(options: MqttSourcesOptions): MqttSources {
  const { sharedSessions, sharing, config } = options;
  const pieces = Array.from({ length: sharedSessions }, (_, index) => String(index + 1));
  const running = new Map<string, MqttSource>();
  let isStopping = false;

  const share: Share = sharing.share({
    kind: 'ingest',
    pieces: async () => pieces,
    leave: stopOne,
    onChanged: () => void follow(),
  });

  async function stopOne(piece: string): Promise<void> {
    const source = running.get(piece);
    running.delete(piece);
    await source?.stop();
  }

  async function follow(): Promise<void> {
    for (const piece of pieces) {
      if (isStopping) return;
      if (!share.has(piece)) await stopOne(piece);
      else if (!running.has(piece)) running.set(piece, startOne(piece));
    }
  }

  function startOne(piece: string): MqttSource {
    const isShared = sharedSessions > 1;
    // The first keeps the plain name, so that a session made before there were several is not left behind full.
    const clientId = piece === '1' ? config.clientId : `${config.clientId}-${piece}`;
    const sharedGroup = isShared ? config.clientId : null;
    return startMqttSource({ ...options, config: { ...config, clientId }, sharedGroup });
  }

  void follow();
  return {
    isConnected() {
      if (running.size === 0) return null;
      return [...running.values()].every((source) => source.isConnected());
    },
    sessions: () => running.size,
    async stop() {
      isStopping = true;
      await Promise.all([...running.keys()].map(stopOne));
    },
  };
}
