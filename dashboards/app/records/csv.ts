/** RFC 4180. A cell that a table program would take for a formula gets a quote in front. */
export function csvOf(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((row) => `${row.map(cellOf).join(',')}\r\n`).join('');
}

function cellOf(cell: string | number | null): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  const safe = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Hands a text to the browser as a file to keep. */
export function download(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** A name as part of a file's name. */
export const fileName = (name: string): string => name.trim().replaceAll(/[^\p{L}\p{N}]+/gu, '-') || 'pile';
