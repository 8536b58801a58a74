import { get, type IncomingMessage } from 'node:http';

export interface SentEvent {
  readonly name: string;
  readonly data: unknown;
  readonly id: string;
}

export interface EventClient {
  readonly status: number;
  readonly events: SentEvent[];
  comments: number;
  /** Last event id as a browser would send it when it comes back. */
  lastEventId: string;
  ended: boolean;
  /** Resolves when what is asked for is true; rejects after the deadline. */
  until(isTrue: () => boolean): Promise<void>;
  close(): void;
}

/** A small reader of server-sent events that follows the standard's parsing rules (fields, comments, checkpoints). */
export async function openEvents(url: string, headers: Record<string, string>): Promise<EventClient> {
  const response = await new Promise<IncomingMessage>((resolve, reject) => {
    get(url, { headers, agent: false }, resolve).on('error', reject);
  });
  const client = makeClient(response);
  let text = '';
  response.setEncoding('utf8');
  response.on('data', (piece: string) => {
    const blocks = (text + piece).split('\n\n');
    text = blocks.pop()!;
    for (const block of blocks) take(client, block);
  });
  const end = () => {
    client.ended = true;
  };
  response.on('end', end).on('close', end).on('error', end);
  return client;
}

function makeClient(response: IncomingMessage): EventClient {
  const client: EventClient = {
    status: response.statusCode!,
    events: [],
    comments: 0,
    lastEventId: '',
    ended: false,
    async until(isTrue) {
      const deadline = performance.now() + 10_000;
      while (!isTrue()) {
        if (performance.now() > deadline)
          throw new Error(`waited in vain; got ${JSON.stringify(client.events)}`);
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
    },
    close: () => response.destroy(),
  };
  return client;
}

function take(client: EventClient, block: string): void {
  let name = 'message';
  let data: string | null = null;
  for (const line of block.split('\n')) {
    if (line.startsWith(':')) client.comments += 1;
    else if (line.startsWith('event: ')) name = line.slice(7);
    else if (line.startsWith('data: ')) data = line.slice(6);
    else if (line.startsWith('id: ')) client.lastEventId = line.slice(4);
  }
  if (data !== null) client.events.push({ name, data: JSON.parse(data), id: client.lastEventId });
}
