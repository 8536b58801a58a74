import { readFileSync } from 'node:fs';
import { ConfigurationError } from './configurationError.ts';

/** Environment variables that set a field: `TILTH_HTTP__PORT=8080` sets `http.port`; names match whatever their case. */
const prefix = 'TILTH_';

/** `TILTH_BROKER__EXTERNALPASSWORD_FILE=/run/secrets/broker` takes the value from that file, as containers hand secrets over. */
const fileEnding = /_FILE$/i;

export interface FieldText {
  /** Names of the field, outermost first, in any case. */
  readonly path: readonly string[];
  readonly text: string;
  /** Where it came from, for a message; never the value. */
  readonly origin: string;
}

/**
 * The fields that the environment sets, as text.
 * @throws ConfigurationError for a file that cannot be read, and for a field that is given both ways.
 */
export function environmentFields(environment: Readonly<Record<string, string | undefined>>): FieldText[] {
  const origins = new Map<string, string>();
  return Object.entries(environment).flatMap(([name, value]) => {
    if (value === undefined || !name.startsWith(prefix)) return [];
    const origin = `environment variable ${name}`;
    const fieldName = name.slice(prefix.length).replace(fileEnding, '');
    const other = origins.get(fieldName.toLowerCase());
    if (other !== undefined) throw new ConfigurationError(`${origin} and ${other}: give only one of the two`);
    origins.set(fieldName.toLowerCase(), origin);
    const text = fileEnding.test(name) ? readValue(value, origin) : value;
    return [{ path: fieldName.split('__'), text, origin }];
  });
}

/** What a file holds, without the line break that editors and `echo` put at its end. */
function readValue(file: string, origin: string): string {
  try {
    return readFileSync(file, 'utf8').replace(/\r?\n$/, '');
  } catch (cause) {
    const code = (cause as NodeJS.ErrnoException).code ?? 'unreadable';
    throw new ConfigurationError(
      `${origin}: the file ${file} cannot be read (${code}); user ${process.getuid?.() ?? 'of this program'} must be allowed to`,
    );
  }
}
