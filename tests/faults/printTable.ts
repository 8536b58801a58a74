/**
 * Run by `npm test` with the rows of the run: prints the fault table and holds the copy in README.md to it. Of a suite
 * that ran, the README must have the same faults and expectations; what was seen holds the numbers of one run and may
 * differ. `--write` puts this run's rows in place of the old ones of the same suites.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';

interface Row {
  readonly suite: string;
  readonly fault: string;
  readonly expected: string;
  readonly seen: string;
}

const [rowsFile = '', option] = process.argv.slice(2);
const readme = new URL('README.md', import.meta.url).pathname;
const [begin, end] = ['<!-- fault table: begin -->\n', '<!-- fault table: end -->'];
const header = '| suite | fault | expected | seen |\n| --- | --- | --- | --- |\n';

const text = readFileSync(readme, 'utf8');
const from = text.indexOf(begin) + begin.length;
const to = text.indexOf(end);
const kept = readRows(text.slice(from, to));
const fresh = existsSync(rowsFile)
  ? readFileSync(rowsFile, 'utf8')
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Row)
  : [];
const ran = new Set(fresh.map(({ suite }) => suite));

if (fresh.length > 0) console.log(`\nFaults made, and what came of them:\n${tableOf(inOrder(fresh))}`);
if (option === '--write') {
  const rows = inOrder([...kept.filter(({ suite }) => !ran.has(suite)), ...fresh]);
  writeFileSync(readme, `${text.slice(0, from)}\n${tableOf(rows)}\n${text.slice(to)}`);
} else if (namesOf(kept.filter(({ suite }) => ran.has(suite))) !== namesOf(fresh)) {
  console.error('tests/faults/README.md holds another table than this run made: npm run faults');
  process.exitCode = 1;
}

function readRows(table: string): Row[] {
  const lines = table.split('\n').filter((line) => line.startsWith('| ') && !line.startsWith('| ---'));
  return lines.slice(1).map((line) => {
    const [suite = '', fault = '', expected = '', seen = ''] = line
      .slice(2, -2)
      .split(' | ')
      .map((cell) => cell.trim());
    return { suite, fault, expected, seen };
  });
}

/** By suite, within one as its tests stand; a row told twice (a repeated test) stands once. */
function inOrder(rows: readonly Row[]): Row[] {
  const suites = [...new Set(rows.map(({ suite }) => suite))].sort();
  const latest = new Map(rows.map((row) => [`${row.suite} ${row.fault}`, row]));
  return suites.flatMap((suite) => [...latest.values()].filter((row) => row.suite === suite));
}

function tableOf(rows: readonly Row[]): string {
  const cell = (value: string) => value.replaceAll('|', '/').replaceAll('\n', ' ');
  const lines = rows.map(
    ({ suite, fault, expected, seen }) => `| ${[suite, fault, expected, seen].map(cell).join(' | ')} |\n`,
  );
  return header + lines.join('');
}

function namesOf(rows: readonly Row[]): string {
  return inOrder(rows)
    .map(({ suite, fault, expected }) => `${suite}: ${fault}: ${expected}`)
    .sort()
    .join('\n');
}
