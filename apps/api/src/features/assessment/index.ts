export { assessHouse, type AssessedHouse } from './assess-house.ts';
export { hideUnread } from './blind.ts';
export { companyOptions, dayAt, isoDate } from './calendar.ts';
export { decisionRuleOf } from './decision-rule.ts';
export { calibrationOn, instrumentFacts, type InstrumentRow } from './instruments.ts';
export { loadHouseFile } from './load-file.ts';
export { reassess } from './reassess.ts';
export { compiledRuleSet, type CompiledRuleSet } from './rule-set.ts';
export { verdictKey } from './stored-verdicts.ts';
