import type { AddressInfo } from 'node:net';
import type { Logger } from 'pino';
import { createApp } from './app.ts';
import type { OperationsPort } from './port.ts';
import { addMachineRoom } from './routes/machineRoomRoutes.ts';

export interface HealthOptions {
  readonly host: string;
  /** 0 takes a free port. */
  readonly port: number;
  readonly metricsToken: string | null;
  readonly operations: OperationsPort;
  readonly logger: Logger;
}

export interface Health {
  readonly port: number;
  stop(): Promise<void>;
}

/** `/healthz`, `/readyz` and `/metrics` of a process that runs no screens. Rejects when the port cannot be listened on. */
export async function startHealth(options: HealthOptions): Promise<Health> {
  const { host, operations, metricsToken, logger } = options;
  const app = await createApp({ config: { tls: null, trustProxy: false }, logger });
  addMachineRoom(app, { operations, metricsToken, openScreens: null });
  await app.listen({ host, port: options.port });
  const { port } = app.server.address() as AddressInfo;
  return { port, stop: () => app.close() };
}
