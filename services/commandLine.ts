/** What the command line asked for. */
export interface CommandLine {
  readonly file: string | null;
  readonly checkConfig: boolean;
  readonly help: boolean;
  readonly flags: readonly (readonly [string, string])[];
}

export const usage = `Usage: npm start -- [--only SERVICES] [--config FILE] [--check-config] [--FIELD VALUE ...]

  --only SERVICES    run only these in this process, e.g. --only ingest,rules (default: all)
  --config FILE      YAML or JSON file with the configuration (default: none)
  --check-config     print the configuration in force, secrets hidden, and stop
  --FIELD VALUE      set one field, e.g. --http.port 8080 (environment: TILTH_HTTP__PORT=8080;
                     TILTH_HTTP__METRICSTOKEN_FILE=/run/secrets/metrics takes the value from that file)`;

/**
 * Reads the command line. Any `--a.b value` or `--a.b=value` sets a field of the configuration.
 * @throws Error naming a flag without a value or a word that is no flag.
 */
export function readCommandLine(words: readonly string[]): CommandLine {
  const rest = [...words];
  const flags: [string, string][] = [];
  let file: string | null = null;
  let checkConfig = false;
  let help = false;
  while (rest.length > 0) {
    const word = rest.shift()!;
    const match = /^--([A-Za-z][\w.-]*)(?:=(.*))?$/s.exec(word);
    if (!match) throw new Error(`"${word}" is not a flag; see --help`);
    const [, name, inline] = match as unknown as [string, string, string | undefined];
    if (name === 'help') help = true;
    else if (name === 'check-config') checkConfig = true;
    else {
      const value = inline ?? rest.shift();
      if (value === undefined) throw new Error(`--${name} needs a value`);
      if (name === 'config') file = value;
      else flags.push([name, value]);
    }
  }
  return { file, checkConfig, help, flags };
}
