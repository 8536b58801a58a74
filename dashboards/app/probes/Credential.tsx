import type { ProbeCredential } from '../../../shared/api/types.ts';
import { Copy } from './Copy.tsx';
import { credentialAddress } from './credentialAddress.ts';
import { QrCode } from './QrCode.tsx';
import { text } from './words.ts';

/** A new credential, shown this once: as text, as a QR code, and as a command that tries it. */
export function Credential({ made }: { readonly made: ProbeCredential }) {
  const { mqtt, secret, probe } = made;
  const address = credentialAddress(made);
  return (
    <section class="note credential" aria-live="polite">
      <h2>{text.credentialOf(probe.label)}</h2>
      <p>
        <strong>{text.onlyNow}</strong>
      </p>
      {isLoopback(mqtt.host) && <p class="wrong">{text.onlyThisMachine}</p>}
      <div class="credential-parts">
        <QrCode content={address} label={text.qrSays} />
        <dl>
          <dt>{text.broker}</dt>
          <dd>{mqtt.tls ? text.brokerWithTls(mqtt.host, mqtt.port) : text.brokerAt(mqtt.host, mqtt.port)}</dd>
          <dt>{text.user}</dt>
          <dd>{mqtt.user}</dd>
          <dt>{text.password}</dt>
          <dd class="secret">{secret}</dd>
          <dt>{text.topic}</dt>
          <dd>{mqtt.topic}</dd>
        </dl>
      </div>
      <details>
        <summary>{text.sameAsText}</summary>
        <pre>{address}</pre>
        <Copy content={address} what={text.sameAsText} />
      </details>
      <details>
        <summary>{text.noProbe}</summary>
        <p>{text.tryIt}</p>
        <pre class="command">{mqtt.exampleCommand}</pre>
        <Copy content={mqtt.exampleCommand} what={text.tryIt} />
      </details>
    </section>
  );
}

/** `localhost`, 127.x and ::1 are this machine alone. */
const isLoopback = (host: string) => host === 'localhost' || host === '::1' || host.startsWith('127.');
