import { useEffect, useState } from 'preact/hooks';

/** Light modules around a code that readers need (ISO/IEC 18004: four). */
const quietModules = 4;

/** A text as a QR code. The coder is fetched when it is first wanted; until then, or without it, the text must do. */
export function QrCode({ content, label }: { readonly content: string; readonly label: string }) {
  const [rows, setRows] = useState<readonly (readonly boolean[])[] | null>(null);
  useEffect(() => {
    import('./qrRows.ts').then(
      ({ qrRows }) => setRows(qrRows(content)),
      () => setRows(null),
    );
  }, [content]);
  if (rows === null) return null;
  const size = rows.length + 2 * quietModules;
  return (
    <svg
      class="qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={label}
      shape-rendering="crispEdges"
    >
      <rect width={size} height={size} fill="#ffffff" />
      <path d={darkModules(rows)} fill="#000000" />
    </svg>
  );
}

function darkModules(rows: readonly (readonly boolean[])[]): string {
  return rows
    .flatMap((row, y) =>
      row.map((isDark, x) => (isDark ? `M${x + quietModules} ${y + quietModules}h1v1h-1z` : '')),
    )
    .join('');
}
