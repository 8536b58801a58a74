/** Text and Message-ID of a mail of one part, as a mail program shows it (RFC 5322, 2045, 2047 as far as ours use them). */
export function readMail(raw: string): { text: string; key: string | null } {
  const end = raw.indexOf('\r\n\r\n');
  const header = raw.slice(0, end).replaceAll(/\r\n[ \t]+/g, ' ');
  const body = raw.slice(end + 4).replace(/\r\n$/, '');
  const field = (name: string) => new RegExp(`^${name}: *(.*)$`, 'im').exec(header)?.[1]?.trim() ?? null;
  const text = decoded(body, field('content-transfer-encoding') ?? '7bit');
  return { text: text.replaceAll('\r\n', '\n').replace(/\n$/, ''), key: field('message-id') };
}

function decoded(body: string, encoding: string): string {
  if (encoding.toLowerCase() === 'base64') return Buffer.from(body, 'base64').toString();
  if (encoding.toLowerCase() !== 'quoted-printable') return body;
  const joined = body.replaceAll('=\r\n', '');
  const bytes = joined.replaceAll(/=([0-9A-F]{2})/gi, (_all, hex: string) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  );
  return Buffer.from(bytes, 'latin1').toString();
}
