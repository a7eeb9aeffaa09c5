import canonicalize from 'canonicalize';
import { createHash } from 'node:crypto';

/** The same for the same content however it was written down or stored: SHA-256 of the canonical JSON. */
export function ruleSetHash(body: unknown): string {
  const plain: unknown = JSON.parse(JSON.stringify(body));
  return createHash('sha256')
    .update(canonicalize(plain) ?? '')
    .digest('hex');
}
