/** How the event log is chained, what a head and a proof are, and how anybody checks them. */
export { canonicalText, eventContent, type EventFields } from './event-content.ts';
export { chainVersion, contentHash, genesis, linkHash } from './chain.ts';
export { checkChain, type ChainRecord, type ChainReport, type HeadFinding } from './check-chain.ts';
export { headSchema, logFormat, logHeaderSchema, logRecordSchema, type Head } from './formats.ts';
export { checkProof, proofSchema, releasedRecord, type Proof, type ProofCheck } from './proof.ts';
export { readLog } from './read-log.ts';
export { fromHex, toHex, utf8, webSha256, type Sha256 } from './sha256.ts';
