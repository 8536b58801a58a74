import { isShared } from '../configuration/services.ts';
import { type Duty, startDuty } from '../notify/duty/startDuty.ts';
import { channelsFromAfar } from '../notify/errands/channelsFromAfar.ts';
import { runErrands } from '../notify/errands/runErrands.ts';
import { createGatewayCallbacks } from '../notify/gatewayCallbacks/createGatewayCallbacks.ts';
import { openChannels } from '../notify/openChannels.ts';
import { type InboundOptions, openInbound } from '../notify/openInbound.ts';
import type { ChannelDeskPort, GatewayCallbackPort, NotifyPort } from '../notify/port.ts';
import { startNotify } from '../notify/startNotify.ts';
import type { RulesPort } from '../rules/port.ts';
import { type Ground, runsHere } from './ground.ts';
import { hearsTexts, textChannel } from './rulesRoom.ts';

export interface NotifyRoomOptions {
  /** How long a text being sent stays ours, in the yard's time; longer where that runs fast. */
  readonly leaseMs?: number;
  /** When to look what is to be told because time has passed (cron with seconds); more often where time runs fast. */
  readonly dutyTick?: string;
}

/** The outbox being emptied, or the way to tell whoever empties it. */
export interface NotifyRoom {
  readonly port: NotifyPort;
  /** The channels, or the way to them where messages leave by another process. */
  readonly channels: ChannelDeskPort;
  /** Duty, digests and the heartbeat; begins when judging has. */
  startDuty(rules: Required<RulesPort>): void;
  /** Last answered call of the heartbeat; null: never, or it is called by another process. */
  lastHeartbeatMs(): number | null;
  stopDuty(): Promise<void>;
  stop(): Promise<void>;
}

/** `rules` is null until judging has started: what comes in before is asked to come again. */
export async function startNotifyRoom(
  ground: Ground,
  rules: () => RulesPort | null,
  options: NotifyRoomOptions,
): Promise<NotifyRoom> {
  const { configuration, records, clock, logger, changes } = ground;
  if (!runsHere(ground, 'notify')) {
    const nudge = () => changes.tell({ kind: 'messages-written' });
    const nothing = async () => {};
    const never = { startDuty: () => {}, lastHeartbeatMs: () => null };
    return { port: { nudge }, channels: afar(ground), ...never, stopDuty: nothing, stop: nothing };
  }
  let duty: Duty | null = null;
  const channels = await openChannels({
    ...{ configuration, dataFolder: configuration.dataFolder, logger, nowMs: clock.nowMs },
    ...(isShared(configuration) ? { marks: records.marks } : {}),
    sink: openInbound(inboundOptions(ground, rules), 'sms-modem'),
  });
  const notify = startNotify({
    ...{ records, clock, logger, channels, publicUrl: () => ground.publicUrl() },
    ...(options.leaseMs === undefined ? {} : { leaseMs: options.leaseMs }),
    onAttempt: ({ yardId }) => changes.tell({ kind: 'screens', changes: [{ kind: 'messages', yardId }] }),
    onTrouble: (trouble) => {
      duty?.tellTrouble(trouble).catch((error: unknown) => logger.error({ err: error }, 'trouble untold'));
    },
  });
  const { kinds, pushKey, standings } = notify;
  ground.standing.channels = () => ({ kinds: kinds(), pushKey: pushKey(), standings: standings() });
  const errands = isShared(configuration) ? runErrands({ records, desk: notify, logger }) : null;
  if (errands !== null) changes.listen('deeds', errands.look);
  changes.listen('messages-written', notify.nudge);
  changes.listen('missed', notify.nudge);
  return {
    port: notify,
    channels: notify,
    startDuty: (port) => {
      duty = dutyOf(ground, port, notify.kinds, options);
    },
    lastHeartbeatMs: () => duty?.lastHeartbeatMs() ?? null,
    stopDuty: async () => duty?.stop(),
    async stop() {
      await errands?.stop();
      await notify.stop();
    },
  };
}

function afar({ records, changes, sharing }: Ground): ChannelDeskPort {
  const told = () => sharing.processes().flatMap(({ channels }) => channels ?? []);
  return channelsFromAfar({ records, told, tell: () => changes.tell({ kind: 'deeds' }) });
}

/** Of several processes that send, one at a time minds what is due because time has passed. */
function dutyOf(
  ground: Ground,
  rules: Required<RulesPort>,
  kinds: ChannelDeskPort['kinds'],
  { dutyTick }: NotifyRoomOptions,
): Duty {
  const { configuration, records, clock, logger, changes, sharing } = ground;
  const share = sharing.share({ kind: 'notify', pieces: async () => ['duty'] });
  return startDuty({
    ...{ records, clock, logger, settings: configuration.watch },
    isOnDuty: () => share.isOurs('duty'),
    onWritten: () => changes.tell({ kind: 'messages-written' }),
    textChannel: textChannel(configuration),
    channels: kinds,
    canReply: hearsTexts(configuration),
    publicUrl: () => ground.publicUrl(),
    wordsFor: rules.wordsFor,
    ...(dutyTick === undefined ? {} : { tick: dutyTick }),
  });
}

function inboundOptions(ground: Ground, rules: () => RulesPort | null): InboundOptions {
  const { records, clock, logger, changes } = ground;
  return {
    ...{ records, clock, logger, rules },
    onChanged: ({ yardId, pileId }) => {
      changes.tell({ kind: 'messages-written' });
      changes.tell({ kind: 'screens', changes: [{ kind: 'messages', yardId }] });
      if (pileId === null || yardId === null) return;
      changes.tell({ kind: 'screens', changes: [{ kind: 'pile', pileId, yardId }] });
    },
  };
}

/** What the text gateway's calls are handed to, in the process with the screens: they come to its address. */
export function gatewayCalls(ground: Ground, rules: () => RulesPort | null): GatewayCallbackPort | null {
  const { sms } = ground.configuration;
  if (sms === null || sms.callbacks === null) return null;
  const sink = openInbound(inboundOptions(ground, rules), 'sms-http');
  return createGatewayCallbacks(sms.callbacks, sink, ground.clock.nowMs);
}
