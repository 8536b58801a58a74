import type { LiveEventName } from '../../../shared/api/types.ts';

/** One server-sent event as text; JSON has no line breaks, so one `data:` line is enough. */
export function eventText(name: LiveEventName, data: unknown, id?: string): string {
  const idLine = id === undefined ? '' : `id: ${id}\n`;
  return `${idLine}event: ${name}\ndata: ${JSON.stringify(data)}\n\n`;
}

/** A comment: keeps idle proxies from closing the stream. */
export const heartbeatText = ': still here\n\n';
