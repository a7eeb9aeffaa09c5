import type { Company } from '@countercheck/contracts';

/** The company's option as the rules read it; a file without a guard band is decided by the result alone. */
export function decisionRuleOf(guardBandFactor: number | null): Company['decisionRule'] {
  return guardBandFactor === null
    ? { rule: 'simple-acceptance' }
    : { rule: 'guard-band', factor: guardBandFactor };
}
