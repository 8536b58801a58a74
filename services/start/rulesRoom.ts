import type { Configuration } from '../configuration/schema.ts';
import type { RulesConfig } from '../rules/options.ts';
import type { RulesPort } from '../rules/port.ts';
import { rulesFromAfar } from '../rules/rulesFromAfar.ts';
import { startServiceWatch } from '../rules/serviceWatch.ts';
import { type Rules, startRules } from '../rules/startRules.ts';
import { type Ground, runsHere } from './ground.ts';

/** Judgement, or the way to it where another process judges. */
export interface RulesRoom {
  readonly port: Required<RulesPort>;
  /** Null where judging is another process's. */
  readonly rules: Rules | null;
  stop(): Promise<void>;
}

export interface RulesRoomOptions {
  /** Times of judgement that must differ where the yard's time runs fast. */
  readonly judgement?: Omit<RulesConfig, 'publicUrl'>;
}

/** Texts go through the gateway, and through the modem where there is no gateway. */
export function textChannel({ sms, modem }: Configuration): 'sms-http' | 'sms-modem' {
  return sms === null && modem !== null ? 'sms-modem' : 'sms-http';
}

/** Whether somebody who texts back is heard. */
export function hearsTexts(configuration: Configuration): boolean {
  if (textChannel(configuration) === 'sms-modem') return true;
  return (configuration.sms?.callbacks?.inbound ?? null) !== null;
}

export async function startRulesRoom(ground: Ground, { judgement }: RulesRoomOptions): Promise<RulesRoom> {
  const { configuration, records, store, clock, logger, changes } = ground;
  const config = {
    publicUrl: () => ground.publicUrl(),
    smsChannel: textChannel(configuration),
    canReply: hearsTexts(configuration),
    ...judgement,
  };
  const common = { records, series: store.local, clock, logger, config };
  if (!runsHere(ground, 'rules')) {
    return { port: rulesFromAfar({ ...common, changes }), rules: null, stop: async () => {} };
  }
  const serviceWatch = watchServices(ground);
  let rules: Rules | null = null;
  const share = ground.sharing.share({
    kind: 'rules',
    pieces: async () => (await records.yards.list()).map(({ id }) => id),
    leave: async (yardId) => rules?.leave(yardId),
    onChanged: () => rules?.nudge(),
  });
  const started = await startRules({
    ...common,
    share,
    services: serviceWatch.facts,
    onDeedsAnswered: () => changes.tell({ kind: 'deeds' }),
    onCommitted: (screens, messages) => {
      if (screens.length > 0) changes.tell({ kind: 'screens', changes: screens });
      if (messages > 0) changes.tell({ kind: 'messages-written' });
    },
  });
  rules = started;
  changes.listen('readings-stored', () => started.nudge());
  changes.listen('facts', () => started.factsChanged());
  changes.listen('deeds', () => started.lookForDeeds());
  changes.listen('missed', () => started.factsChanged());
  return {
    ...{ port: started, rules: started },
    async stop() {
      serviceWatch.stop();
      await started.stop();
    },
  };
}

/** How the program stands, in this process and, as far as they tell, in the others. */
function watchServices({ configuration, records, clock, sharing }: Ground) {
  return startServiceWatch({
    dataFolder: configuration.dataFolder,
    clock,
    isBrokerConnected: () => connected(sharing.processes()),
    isDatabaseReachable: async () => {
      await records.marks.get('rules:cursor');
      return sharing.processes().every(({ isForwarding }) => isForwarding !== false);
    },
    localSpaceUsedFraction: () =>
      sharing.processes().find((one) => one.localSpaceUsedFraction !== null)?.localSpaceUsedFraction ?? null,
    oldestMessageMs: async () => (await records.messages.standing()).oldestWaitingMs,
  });
}

/** Readings come in when every line to the broker stands. Nobody taking them in at all is no better than a broken one. */
function connected(processes: ReturnType<Ground['sharing']['processes']>): boolean | null {
  const takers = processes.filter(({ services }) => services.includes('ingest'));
  if (processes.length > 0 && takers.length === 0) return false;
  const lines = takers.flatMap(({ isBrokerConnected }) => isBrokerConnected ?? []);
  return lines.length === 0 ? null : lines.every((isUp) => isUp);
}
