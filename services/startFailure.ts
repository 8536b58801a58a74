/** Why the program could not start, in words that say what to change. */
export function startFailureText(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const { code, address, port, path } = error as NodeJS.ErrnoException & { address?: string; port?: number };
  const ports = 'choose another with --http.port or --broker.port (0 takes a free one)';
  if (code === 'EADDRINUSE') return `Port ${port} of ${address} is taken by another program; ${ports}.`;
  if (code === 'EADDRNOTAVAIL')
    return `${address} is not an address of this machine; see http.host and broker.host.`;
  if (code === 'EACCES' && port !== undefined)
    return `Port ${port} needs more rights than this program has; ${ports}.`;
  if (code === 'EACCES' || code === 'EROFS')
    return `${path} cannot be written; see dataFolder and who owns it.`;
  if (code === 'ENOENT' && path !== undefined)
    return `${path} is not there; see the field of the configuration that names it.`;
  return error.message;
}
