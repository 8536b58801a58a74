import { createDecipheriv, createECDH, hkdfSync } from 'node:crypto';

export interface PushReceiver {
  /** P-256 private key, 32 bytes. */
  readonly privateKey: Buffer;
  /** Authentication secret of the subscription, 16 bytes. */
  readonly authSecret: Buffer;
}

const saltLength = 16;
const tagLength = 16;
const lastRecordDelimiter = 0x02;

/**
 * Plaintext of a web push body, as a browser would read it (RFC 8291 over RFC 8188 aes128gcm, one record). Throws when
 * the body was not encrypted for this receiver.
 */
export function decryptWebPush(body: Buffer, receiver: PushReceiver): Buffer {
  const salt = body.subarray(0, saltLength);
  const keyLength = body[saltLength + 4]!;
  const keyStart = saltLength + 5;
  const senderPublic = body.subarray(keyStart, keyStart + keyLength);
  const record = body.subarray(keyStart + keyLength);
  const { key, nonce } = contentKey(receiver, senderPublic, salt);
  const decipher = createDecipheriv('aes-128-gcm', key, nonce);
  decipher.setAuthTag(record.subarray(-tagLength));
  const padded = Buffer.concat([decipher.update(record.subarray(0, -tagLength)), decipher.final()]);
  const end = padded.lastIndexOf(lastRecordDelimiter);
  if (end < 0) throw new Error('no delimiter of a last record in the body');
  return padded.subarray(0, end);
}

function contentKey({ privateKey, authSecret }: PushReceiver, senderPublic: Buffer, salt: Buffer) {
  const receiver = createECDH('prime256v1');
  receiver.setPrivateKey(privateKey);
  const shared = receiver.computeSecret(senderPublic);
  const info = Buffer.concat([Buffer.from('WebPush: info\0'), receiver.getPublicKey(), senderPublic]);
  const keyMaterial = Buffer.from(hkdfSync('sha256', shared, authSecret, info, 32));
  const derive = (label: string, length: number) =>
    Buffer.from(hkdfSync('sha256', keyMaterial, salt, `Content-Encoding: ${label}\0`, length));
  return { key: derive('aes128gcm', 16), nonce: derive('nonce', 12) };
}
