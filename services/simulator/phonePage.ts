interface Sent {
  readonly to: string;
  readonly text: string;
  readonly receivedMs: number;
}

interface Reply {
  readonly from: string;
  readonly text: string;
  readonly sentMs: number;
}

const style = `
body{font:17px/1.45 system-ui,sans-serif;max-width:26rem;margin:0 auto;padding:1rem;background:#eceae4;color:#23271f}
h1{font-size:1.1rem}ol{list-style:none;padding:0}li{background:#fff;border-radius:.8rem;padding:.7rem .9rem;margin:.7rem 0}
li.own{background:#dfe8d8;margin-inline-start:3rem}p{margin:0 0 .3rem;overflow-wrap:anywhere}small{color:#5a5f54}
form{display:grid;gap:.4rem;margin:1rem 0}input,select,button{font:inherit;padding:.5rem .6rem;border:1px solid #6b7164;border-radius:.5rem}
button{background:#2c4a35;color:#fff}input:focus-visible,select:focus-visible,button:focus-visible{outline:3px solid #1d4d8f;outline-offset:2px}
`;

/** New texts show by themselves, but never while somebody is writing. */
const script = `setInterval(() => {
  const field = document.querySelector('input');
  if (field === null || (field.value === '' && document.activeElement !== field)) location.reload();
}, 3000);`;

/** What the stand-in phone shows: texts of the yard and what was texted back, newest first, and a field to text back. */
export function phonePage(texts: readonly Sent[], replies: readonly Reply[], canReply: boolean): string {
  const items = [
    ...texts.map(({ to, text, receivedMs }) => ({
      atMs: receivedMs,
      html: `<li><p>${linked(text)}</p><small>to ${escaped(to)}, ${text.length} characters</small></li>`,
    })),
    ...replies.map(({ from, text, sentMs }) => ({
      atMs: sentMs,
      html: `<li class="own"><p>${escaped(text)}</p><small>from ${escaped(from)}</small></li>`,
    })),
  ].sort((a, b) => b.atMs - a.atMs);
  const list =
    items.length > 0
      ? `<ol>${items.map(({ html }) => html).join('')}</ol>`
      : '<p class="none">No text yet. The first one comes when a core passes its ceiling.</p>';
  return `<!doctype html><html lang="en"><head><meta charset="utf-8">
<noscript><meta http-equiv="refresh" content="10"></noscript>
<meta name="viewport" content="width=device-width"><title>Stand-in phone</title><style>${style}</style></head>
<body><main><h1>Stand-in phone: texts this yard sent</h1>${canReply ? replyForm(texts) : ''}${list}</main>
<script>${script}</script></body></html>`;
}

function replyForm(texts: readonly Sent[]): string {
  const numbers = [...new Set(texts.map(({ to }) => to))];
  if (numbers.length === 0) return '';
  const choices = numbers.map((one) => `<option>${escaped(one)}</option>`).join('');
  return `<form method="post" action="/reply">
<label for="text">Text back: seen K7, stop K7 4h, done K7 watered, status (K7 stands for the code in the text)</label>
<input id="text" name="text" maxlength="160" autocomplete="off" required>
<label for="from">From the phone</label>
<select id="from" name="from">${choices}</select>
<button>Send</button></form>`;
}

function escaped(text: string): string {
  return text.replaceAll(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
}

/** Links in a text can be tapped, as on a phone. */
function linked(text: string): string {
  return escaped(text).replaceAll(/https?:\/\/[^\s&]+/g, (url) => `<a href="${url}">${url}</a>`);
}
