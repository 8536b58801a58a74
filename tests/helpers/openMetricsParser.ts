import { execFileSync } from 'node:child_process';

/** The parser written beside the OpenMetrics specification (Debian's python3-prometheus-client), strict by design. */
const program = `
import json, sys
from prometheus_client.openmetrics.parser import text_string_to_metric_families
families = [
  {"name": f.name, "type": f.type, "unit": f.unit, "samples": [[s.name, s.labels, s.value] for s in f.samples]}
  for f in text_string_to_metric_families(sys.stdin.read())
]
print(json.dumps(families))
`;

export interface ParsedFamily {
  readonly name: string;
  readonly type: string;
  readonly unit: string;
  readonly samples: readonly (readonly [string, Readonly<Record<string, string>>, number])[];
}

export const openMetricsParserMissing =
  'python3 with prometheus_client is not installed; Debian has it in python3-prometheus-client';

/** The first Python that has it: a machine may have one of its own beside the distribution's. */
const python = ['/usr/bin/python3', 'python3'].find((each) => {
  try {
    execFileSync(each, ['-c', 'import prometheus_client.openmetrics.parser'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
});
export const hasOpenMetricsParser = python !== undefined;

/** Families of a page; throws with the parser's own words where the page breaks a rule. */
export function parseOpenMetrics(page: string): ParsedFamily[] {
  const answer = execFileSync(python!, ['-c', program], { input: page, encoding: 'utf8', stdio: 'pipe' });
  return JSON.parse(answer) as ParsedFamily[];
}
