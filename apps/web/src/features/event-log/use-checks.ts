import { review, type Role } from '@countercheck/contracts';
import {
  canonicalText,
  checkProof,
  contentHash,
  toHex,
  type Head,
  type Proof,
  type ProofCheck,
} from '@countercheck/seal';
import { useEffect, useState } from 'react';
import { call } from '../../lib/client.ts';

export type Checks = ProofCheck[] | 'working' | 'no-crypto' | 'failed';

/** That the whole content, which the company's own people may read, gives the seal it was released with. */
async function checkContent({ release }: Proof): Promise<ProofCheck> {
  const { content } = await call(review.sealed, { params: { id: release.id } });
  const holds = toHex(await contentHash(canonicalText(content))) === release.hash;
  return {
    what: 'result',
    holds,
    words: holds
      ? 'The whole sealed content gives the seal, worked out again in this browser.'
      : 'The whole sealed content does not give the seal: it was changed.',
  };
}

/** Works out all hashes of a proof in this browser. */
export function useChecks(proof: Proof, kept: Head | undefined, role: Role): Checks {
  const [checks, setChecks] = useState<Checks>('working');
  useEffect(() => {
    let current = true;
    const show = (next: Checks) => {
      if (current) setChecks(next);
    };
    // WebCrypto is there on encrypted pages and on this machine only.
    if (!globalThis.isSecureContext) {
      show('no-crypto');
      return;
    }
    const work = async () => {
      const own = await checkProof(proof, kept);
      return role === 'builder' ? own : [...own, await checkContent(proof)];
    };
    work().then(show, () => show('failed'));
    return () => {
      current = false;
    };
  }, [proof, kept, role]);
  return checks;
}
