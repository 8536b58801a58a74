import { createHash } from 'node:crypto';
import type { FastifyReply } from 'fastify';
import { escapeHtml } from './escapeHtml.ts';

/** Large type and one thumb-sized button: read in a yard, in gloves, in sun or dark. */
const style = `
:root { color-scheme: light dark; }
body { font: 1.25rem/1.45 system-ui, sans-serif; margin: 0 auto; padding: 1.25rem; max-width: 34rem; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .5rem; }
p { margin: .75rem 0; }
.first { border-inline-start: .4rem solid currentColor; padding-inline-start: .8rem; }
ul { padding-inline-start: 1.2em; }
button { font: inherit; font-weight: 600; width: 100%; min-height: 4rem; border-radius: .5rem; border: .15rem solid; cursor: pointer; }
button:focus-visible { outline: .25rem solid; outline-offset: .2rem; }
footer { margin-top: 2rem; font-size: 1rem; }
`;

const styleHash = createHash('sha256').update(style).digest('base64');

/** No script at all; the one style is allowed by its hash; the form may only come back here. */
const policy = [
  "default-src 'none'",
  `style-src 'sha256-${styleHash}'`,
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** A page that works on any phone without script. `body` is finished HTML: whoever makes it escapes what people wrote. */
export function sendPlainPage(
  reply: FastifyReply,
  status: number,
  title: string,
  body: string,
  language = 'en',
): FastifyReply {
  reply.code(status).type('text/html; charset=utf-8').header('content-security-policy', policy);
  reply.serializer((value: unknown) => String(value));
  return reply.send(
    `<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>${escapeHtml(title)}</title>
<style>${style}</style>
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`,
  );
}
