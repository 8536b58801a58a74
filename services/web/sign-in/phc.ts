/** Argon2id costs. */
export interface HashParameters {
  readonly memoryKibibytes: number;
  readonly passes: number;
  readonly lanes: number;
}

export interface StoredHash {
  readonly parameters: HashParameters;
  readonly salt: Buffer;
  readonly hash: Buffer;
}

const pattern =
  /^\$argon2id\$v=19\$m=(\d{1,8}),t=(\d{1,3}),p=(\d{1,2})\$([A-Za-z0-9+/]{11,86})\$([A-Za-z0-9+/]{43})$/;

/** PHC string format: the algorithm and its costs travel with the hash, so that costs can be raised later. */
export function formatPhc(parameters: HashParameters, salt: Buffer, hash: Buffer): string {
  const { memoryKibibytes, passes, lanes } = parameters;
  return `$argon2id$v=19$m=${memoryKibibytes},t=${passes},p=${lanes}$${unpadded(salt)}$${unpadded(hash)}`;
}

/** Null when the text is not an Argon2id PHC string with a 32-byte hash. */
export function parsePhc(text: string): StoredHash | null {
  const match = pattern.exec(text);
  if (match === null) return null;
  const [, memory, passes, lanes, salt, hash] = match;
  return {
    parameters: { memoryKibibytes: Number(memory), passes: Number(passes), lanes: Number(lanes) },
    salt: Buffer.from(salt!, 'base64'),
    hash: Buffer.from(hash!, 'base64'),
  };
}

function unpadded(bytes: Buffer): string {
  return bytes.toString('base64').replace(/=+$/, '');
}
