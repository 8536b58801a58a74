import { existsSync } from 'node:fs';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyReply } from 'fastify';
import { sendPlainPage } from './answer/plainPage.ts';
import type { App } from './app.ts';
import type { House } from './house.ts';
import { ApiProblem } from './problems/apiProblem.ts';
import { wallKeyRoute } from './routes/wallLinkRoutes.ts';

/** Vite puts a hash of the content into the names of files here: they may be kept for ever. */
const hashedFolder = '/assets/';

/** Serves the built screens: `/` the app, `/wall` the wall, and their files. */
export async function screens(app: App, house: House): Promise<void> {
  const folder = house.config.dashboardsFolder;
  await app.register(fastifyStatic, { root: folder, serve: false, cacheControl: false });
  app.route({
    method: 'GET',
    url: '/',
    config: { access: 'public' },
    schema: { hide: true },
    handler: async (_request, reply) => sendEntry(reply, folder, 'index.html'),
  });
  wallKeyRoute(app, house, (reply) => sendEntry(reply, folder, 'wall.html'));
  app.route({
    method: 'GET',
    url: '/*',
    config: { access: 'public' },
    schema: { hide: true },
    handler: async (request, reply) => {
      const path = decodedPath(request.url);
      if (path.startsWith('/api/')) throw new ApiProblem('not-found', 'There is nothing at this address.');
      if (!isFile(folder, path)) return sendNothingHere(reply);
      const cache = path.startsWith(hashedFolder) ? 'public, max-age=31536000, immutable' : 'no-cache';
      return reply.header('cache-control', cache).sendFile(path);
    },
  });
}

/** The wall may be an entry of its own; if it is not, the one entry serves it too. */
function sendEntry(reply: FastifyReply, folder: string, file: string): FastifyReply {
  const found = [file, 'index.html'].find((name) => existsSync(join(folder, name)));
  if (found === undefined) return sendNotBuilt(reply);
  return reply.header('cache-control', 'no-cache').sendFile(found);
}

function decodedPath(url: string): string {
  try {
    return decodeURIComponent(url.split('?')[0]!);
  } catch {
    return '';
  }
}

/** Only plain names below the folder; `sendFile` itself refuses what leads out of it. */
function isFile(folder: string, path: string): boolean {
  const isPlain = /^(\/[A-Za-z0-9_-][A-Za-z0-9._-]*)+$/.test(path);
  return isPlain && existsSync(join(folder, path)) && path.includes('.');
}

function sendNotBuilt(reply: FastifyReply): FastifyReply {
  const body = `<h1>The screens are not built</h1>
<p>The service is running; only the pages are missing. Run <code>npm run build</code> in its folder and load this page again.</p>`;
  return sendPlainPage(reply, 503, 'The screens are not built', body);
}

function sendNothingHere(reply: FastifyReply): FastifyReply {
  const body = '<h1>There is nothing at this address</h1><p><a href="/">To the yard</a></p>';
  return sendPlainPage(reply, 404, 'Nothing here', body);
}
