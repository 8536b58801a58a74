import type { Change, ChangeBus, ChangeKind, ChangeOf } from './port.ts';

type Listener = (change: Change) => void;

/** Listeners by kind; one that throws keeps nothing from the others. */
export interface Listeners {
  add<Kind extends ChangeKind>(kind: Kind, listener: (change: ChangeOf<Kind>) => void): void;
  call(change: Change): void;
}

export function createListeners(onFault: (error: unknown) => void): Listeners {
  const byKind = new Map<ChangeKind, Listener[]>();
  return {
    add(kind, listener) {
      byKind.set(kind, [...(byKind.get(kind) ?? []), listener as Listener]);
    },
    call(change) {
      for (const listener of byKind.get(change.kind) ?? []) {
        try {
          listener(change);
        } catch (error) {
          onFault(error);
        }
      }
    },
  };
}

/** All services are in this process: whoever listens is called. */
export function createInProcessBus(onFault: (error: unknown) => void): ChangeBus {
  const listeners = createListeners(onFault);
  return {
    tell: listeners.call,
    listen: listeners.add,
    isConnected: () => true,
    close: async () => {},
  };
}
