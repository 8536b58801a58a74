/** A number as people say it: two decimals below 1, one below 20, none above. */
export function round(value: number): string {
  const size = Math.abs(value);
  const decimals = size < 1 ? 2 : size < 20 ? 1 : 0;
  return String(Number(value.toFixed(decimals)));
}
