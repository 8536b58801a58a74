import { createPrivateKey, X509Certificate } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { bad, type Finding, good, warning } from './finding.ts';
import { daysBetween } from './machine.ts';

/** Long enough to renew one by hand over a holiday. */
const warnDays = 21;

export interface CertificateFiles {
  /** What it is for: "screens (http.tls)". */
  readonly about: string;
  readonly certificateFile: string;
  readonly keyFile: string | null;
}

/** Whether a certificate can be read, is in its time, and belongs to its key. */
export async function certificateFindings(
  { about, certificateFile, keyFile }: CertificateFiles,
  nowMs: number,
): Promise<Finding[]> {
  const name = `certificate of ${about}`;
  const unreadable = (file: string, error: unknown) => {
    const why = error instanceof Error ? error.message : String(error);
    return [
      bad(
        name,
        `${file} cannot be read: ${why}`,
        'See that the file is there, is PEM, and may be read by this account.',
      ),
    ];
  };
  let certificate: X509Certificate;
  try {
    certificate = new X509Certificate(await readFile(certificateFile));
  } catch (error) {
    return unreadable(certificateFile, error);
  }
  if (keyFile === null) return [dateFinding(name, certificate, nowMs)];
  try {
    const key = createPrivateKey(await readFile(keyFile));
    const belongs = certificate.checkPrivateKey(key);
    if (!belongs)
      return [
        bad(name, `${keyFile} is not the key of ${certificateFile}`, 'Put the pair that belongs together.'),
      ];
  } catch (error) {
    return unreadable(keyFile, error);
  }
  return [dateFinding(name, certificate, nowMs)];
}

function dateFinding(name: string, certificate: X509Certificate, nowMs: number): Finding {
  const [fromMs, toMs] = [Date.parse(certificate.validFrom), Date.parse(certificate.validTo)];
  const end = new Date(toMs).toISOString().slice(0, 10);
  if (nowMs < fromMs)
    return bad(
      name,
      `counts only from ${new Date(fromMs).toISOString()}`,
      'Check the clock; else have a new one made.',
    );
  if (nowMs > toMs)
    return bad(name, `ended on ${end}`, 'Renew it and start again: nobody believes this one any more.');
  const days = daysBetween(nowMs, toMs);
  return days < warnDays
    ? warning(name, `ends in ${days} days, on ${end}`, 'Renew it before that day and start again.')
    : good(name, `good until ${end}`);
}
