import { fsyncSync, openSync, writeSync } from 'node:fs';
import { createServer } from 'node:http';
import { type AddressInfo, createServer as createTcpServer } from 'node:net';
import { join } from 'node:path';
import { Aedes } from 'aedes';
import { connectAsync } from 'mqtt';

/** The shortest way from a publisher to a gateway: broker, one flushed line on the disk, one call. What is compared with. */
export interface BareRoad {
  /** Milliseconds from the publish to its call at the gateway. */
  measure(): Promise<number>;
  close(): Promise<void>;
}

export async function openBareRoad(folder: string): Promise<BareRoad> {
  const aedes = await Aedes.createBroker();
  const broker = createTcpServer(aedes.handle);
  let arrived = (_atMs: number): void => {};
  const gateway = createServer(async (request, response) => {
    for await (const _piece of request);
    arrived(performance.now());
    response.end('{}');
  });
  for (const server of [broker, gateway])
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const portOf = (server: { address(): unknown }) => (server.address() as AddressInfo).port;
  const [sender, receiver] = [
    await connectAsync(`mqtt://127.0.0.1:${portOf(broker)}`),
    await connectAsync(`mqtt://127.0.0.1:${portOf(broker)}`),
  ];
  const line = openSync(join(folder, 'bare'), 'a');
  await receiver.subscribeAsync('bare', { qos: 1 });
  receiver.on('message', (_topic, payload) => {
    writeSync(line, payload);
    fsyncSync(line);
    void fetch(`http://127.0.0.1:${portOf(gateway)}/`, { method: 'POST', body: payload.toString() });
  });
  return {
    async measure() {
      const sentMs = performance.now();
      const came = new Promise<number>((resolve) => {
        arrived = resolve;
      });
      await sender.publishAsync('bare', JSON.stringify({ v: 82.5, t: Date.now() }), { qos: 1 });
      return (await came) - sentMs;
    },
    async close() {
      await Promise.all([sender.endAsync(), receiver.endAsync()]);
      await new Promise<void>((resolve) => aedes.close(resolve));
      broker.close();
      gateway.close();
    },
  };
}
