import type { InboundSink } from '../messageChannel.ts';
import type { CallbackAnswer, CallbackRequest, GatewayCallbackPort } from '../port.ts';
import { isAuthentic } from './authentic.ts';
import { CallbackError, readReports, readTexts } from './read.ts';
import type { GatewayCallbacks } from './settings.ts';

/** Far more than any gateway sends for one text. */
const bodyLimitBytes = 65_536;

/**
 * What the web service answers when the gateway calls. Refused (401) before anything is read when the proof is missing;
 * 400 names what could not be read; 500 when it could not be stored, so that the gateway calls again.
 */
export function createGatewayCallbacks(
  settings: GatewayCallbacks,
  sink: InboundSink,
  nowMs: () => number,
): GatewayCallbackPort {
  async function taken(
    request: CallbackRequest,
    take: (atMs: number) => Promise<void>,
  ): Promise<CallbackAnswer> {
    if (request.body.length > bodyLimitBytes) return plain(413, 'too long');
    if (!isAuthentic(request, settings.check, nowMs())) return plain(401, 'not proved to be the gateway');
    try {
      await take(nowMs());
      return { status: 200, ...settings.answer };
    } catch (error) {
      if (error instanceof CallbackError) return plain(400, error.message);
      return plain(500, 'not stored, please call again');
    }
  }
  const { deliveryReport, inbound } = settings;
  return {
    deliveryReport: async (request) =>
      deliveryReport === null
        ? plain(404, 'no delivery reports are set up')
        : taken(request, async (atMs) => {
            for (const report of readReports(request, deliveryReport, atMs)) await sink.onReport(report);
          }),
    inbound: async (request) =>
      inbound === null
        ? plain(404, 'no inbound texts are set up')
        : taken(request, async (atMs) => {
            for (const text of readTexts(request, inbound, atMs)) await sink.onText(text);
          }),
  };
}

function plain(status: number, body: string): CallbackAnswer {
  return { status, contentType: 'text/plain', body };
}
