/**
 * Thread entry: publishes at QoS 1 over plain sockets with ready-made packets, so that the publisher costs next to
 * nothing beside what is measured. Posts `{ milliseconds, processorMicroseconds }`, its own, when the last
 * acknowledgement has come.
 */
import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import { parentPort, workerData } from 'node:worker_threads';

export interface PublisherTask {
  readonly port: number;
  readonly messages: number;
  readonly inFlight: number;
  readonly probes: readonly { readonly id: string; readonly secret: string; readonly topic: string }[];
  /** Time of the first reading; each next one of a probe is 10 ms later. */
  readonly startMs: number;
  /** Readings in each message, each of a channel of its own; 1 when left out. */
  readonly readingsPerMessage?: number;
}

const task = workerData as PublisherTask;
const perProbe = Math.floor(task.messages / task.probes.length);
const lines = await Promise.all(task.probes.map(signIn));
const packets = task.probes.map(({ id, topic }) =>
  Array.from({ length: perProbe }, (_, index) => publishPacket(id, topic, index)),
);
const startedMs = performance.now();
const used = process.threadCpuUsage();
await Promise.all(lines.map((socket, index) => publishAll(socket, packets[index]!)));
const { user, system } = process.threadCpuUsage(used);
parentPort!.postMessage({
  milliseconds: performance.now() - startedMs,
  processorMicroseconds: user + system,
});
for (const socket of lines) socket.destroy();

async function signIn({ id, secret }: PublisherTask['probes'][number]): Promise<Socket> {
  const socket = connect(task.port, '127.0.0.1').setNoDelay(true);
  socket.write(connectPacket(id, secret));
  const [connack] = await once(socket, 'data');
  if (connack[3] !== 0) throw new Error(`sign-in refused with code ${connack[3]}`);
  return socket;
}

function publishPacket(id: string, topic: string, index: number): Buffer {
  const time = (task.startMs + index * 10) / 1000;
  const payload = packOf(id, index, time);
  const messageId = Buffer.alloc(2);
  messageId.writeUInt16BE((index % 65_535) + 1);
  return packet(0x32, Buffer.concat([text(topic), messageId, Buffer.from(payload)]));
}

/** `core` alone, or `core`, `core1`, `core2`... at one time. */
function packOf(id: string, index: number, time: number): string {
  const records = Array.from({ length: task.readingsPerMessage ?? 1 }, (_, channel) => {
    const name = `${id}_core${channel === 0 ? '' : channel}`;
    return { n: name, u: 'Cel', v: 60 + (index % 10) / 16, t: time };
  });
  return JSON.stringify(records);
}

/** MQTT 3.1.1 section 3.1: clean session, user name and password, no keep-alive. */
function connectPacket(id: string, secret: string): Buffer {
  const header = Buffer.concat([text('MQTT'), Buffer.from([4, 0xc2, 0, 0])]);
  return packet(0x10, Buffer.concat([header, text(id), text(id), text(secret)]));
}

function text(value: string): Buffer {
  const bytes = Buffer.from(value);
  const length = Buffer.alloc(2);
  length.writeUInt16BE(bytes.length);
  return Buffer.concat([length, bytes]);
}

/** Bodies here are shorter than 16,384 bytes, so the length takes two bytes of seven bits at most. */
function packet(type: number, body: Buffer): Buffer {
  const length = body.length < 128 ? [body.length] : [(body.length & 127) | 128, body.length >> 7];
  return Buffer.concat([Buffer.from([type, ...length]), body]);
}

/** Each PUBACK is four bytes; as many new packets follow as were acknowledged. */
function publishAll(socket: Socket, toSend: readonly Buffer[]): Promise<void> {
  let sent = 0;
  let bytesBack = 0;
  const send = (count: number): void => {
    const next = toSend.slice(sent, sent + count);
    sent += next.length;
    if (next.length > 0) socket.write(Buffer.concat(next));
  };
  return new Promise((resolve, reject) => {
    socket.on('close', () => reject(new Error(`connection closed after ${bytesBack / 4} acknowledgements`)));
    socket.on('data', (data) => {
      const before = Math.floor(bytesBack / 4);
      bytesBack += data.length;
      const acknowledged = Math.floor(bytesBack / 4);
      if (acknowledged === toSend.length) resolve();
      else send(acknowledged - before);
    });
    send(Math.floor(task.inFlight / task.probes.length));
  });
}
