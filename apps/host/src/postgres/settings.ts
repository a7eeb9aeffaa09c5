import { writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const settingsFile = 'countercheck.conf';

const always: Record<string, string> = {
  listen_addresses: '127.0.0.1',
  // Only TCP: a socket path inside a deep checkout can exceed what the system allows.
  unix_socket_directories: '',
  timezone: 'UTC',
  log_timezone: 'UTC',
  max_connections: '100',
};

/** For databases that are thrown away after the run, where surviving a power cut is worth nothing. */
export const throwAway: Record<string, string> = {
  fsync: 'off',
  synchronous_commit: 'off',
  full_page_writes: 'off',
  shared_buffers: '64MB',
  autovacuum: 'off',
  wal_level: 'minimal',
  max_wal_senders: '0',
};

export function writeSettings(directory: string, port: number, extra: Record<string, string> = {}): void {
  const lines = Object.entries({ ...always, ...extra, port: String(port) }).map(
    ([name, value]) => `${name} = '${value.replaceAll("'", "''")}'`,
  );
  writeFileSync(join(directory, settingsFile), `${lines.join('\n')}\n`);
}
