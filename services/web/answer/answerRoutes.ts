import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { answerPage } from './answerPage.ts';
import { findAnswer } from './findAnswer.ts';
import { sendPlainPage } from './plainPage.ts';

const rateLimit = { max: 30, timeWindow: '1 minute' };
const schema = { hide: true, params: z.object({ token: z.string().max(200) }) };
const config = { access: 'public', rateLimit } as const;

/**
 * The link in a text: `GET /a/<token>` shows what is wrong and one button; only the button's POST changes anything,
 * because chat programs and virus scanners fetch addresses they see. Short path, so that the text fits one segment.
 */
export function answerRoutes(app: App, house: House): void {
  void app.register((scope, _options, done) => {
    const pages = scope as unknown as App;
    pages.addContentTypeParser('application/x-www-form-urlencoded', (_request, payload, parsed) => {
      payload.resume();
      parsed(null, null);
    });
    pages.setErrorHandler((error, request, reply) => {
      request.log.warn({ err: error }, 'answer page failed');
      const limited = (error as { statusCode?: number }).statusCode === 429;
      return limited ? sendTooMany(reply) : sendFault(reply);
    });

    pages.route({
      method: 'GET',
      url: '/a/:token',
      config,
      schema,
      handler: async (request, reply) => show(house, request.params.token, reply),
    });

    pages.route({
      method: 'POST',
      url: '/a/:token',
      bodyLimit: 1024,
      config,
      schema,
      handler: async (request, reply) => {
        await acknowledge(house, request.params.token);
        // Back to the GET, so that reloading the page does not send the form again.
        return reply.redirect(`/a/${encodeURIComponent(request.params.token)}`, 303);
      },
    });
    done();
  });
}

async function show(house: House, token: string, reply: FastifyReply): Promise<FastifyReply> {
  const page = await answerPage(house, await findAnswer(house, token));
  return sendPlainPage(reply, page.status, page.title, page.body, page.language);
}

/** Does nothing when there is nothing left to acknowledge: the page then says what became of it. */
async function acknowledge(house: House, token: string): Promise<void> {
  const answer = await findAnswer(house, token);
  if (answer.kind !== 'open') return;
  const { alarm, person } = answer;
  const event = { kind: 'acknowledge', atMs: house.clock.nowMs(), by: person.id } as const;
  try {
    await house.rules.act(alarm.id, event);
  } catch (error) {
    // Somebody else was a moment faster, or it came and went: that is for the page to tell, not a fault.
    const isRefusal = error instanceof ApiProblem || (error as Error).name === 'RecordsError';
    if (!isRefusal) throw error;
  }
  house.live.announce([{ kind: 'alarm', alarmId: alarm.id, yardId: alarm.yardId }]);
}

function sendTooMany(reply: FastifyReply): FastifyReply {
  const body = '<h1>Too many tries</h1><p>Wait a minute and open the link again.</p>';
  return sendPlainPage(reply, 429, 'Too many tries', body);
}

function sendFault(reply: FastifyReply): FastifyReply {
  const body =
    '<h1>That did not work</h1><p>The yard could not take your answer just now. Nothing was acknowledged. Open the link again in a minute, or look at the pile.</p>';
  return sendPlainPage(reply, 500, 'That did not work', body);
}
