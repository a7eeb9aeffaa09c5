import { administration, service } from '@countercheck/contracts';
import { compileRuleSet, type ItemVerdict, type RuleSet } from '@countercheck/rules';
import { useMemo } from 'react';
import { Caution, CloseMark, StatusMark } from '../../components/marks/index.ts';
import { Asked } from '../../components/states/index.ts';
import { SourceMark } from '../../components/working/index.ts';
import { useRoute } from '../../lib/query.ts';
import { judge } from './judge.ts';
import type { CalculatorState } from './state.ts';
import { useVerdictIn } from '../../lib/units/verdict-in.ts';

interface Props {
  ruleSetId: string;
  state: CalculatorState;
  reading: Parameters<typeof judge>[1];
}

/** The verdicts that a rule set gives on this reading alone. */
export function Verdicts({ ruleSetId, ...given }: Props) {
  const query = useRoute(service.ruleSet, { params: { id: ruleSetId } });
  return (
    <Asked query={query} what="Loading the rule set">
      {(set) => <Judged body={set.body as RuleSet} {...given} />}
    </Asked>
  );
}

function Judged({ body, state, reading }: Omit<Props, 'ruleSetId'> & { body: RuleSet }) {
  const company = useRoute(administration.company, {});
  const evaluate = useMemo(() => compileRuleSet(body), [body]);
  const rule = company.data?.decisionRule;
  const verdicts = useMemo(() => judge(state, reading, evaluate, rule), [state, reading, evaluate, rule]);
  if (verdicts.length === 0) return <p className="soft">This rule set has no item for this test.</p>;
  return verdicts.map((verdict) => (
    <Verdict key={`${verdict.item}/${verdict.subjectId}`} verdict={verdict} />
  ));
}

function sourceOf({ trace }: ItemVerdict) {
  const ways = [
    ...trace.options.map((each) => ({ key: each.option, source: each.source })),
    ...trace.exemptions.map((each) => ({ key: each.exemption, source: each.source })),
  ];
  return (ways.find(({ key }) => key === trace.decidedBy) ?? ways[0])?.source;
}

function Verdict({ verdict: kept }: { verdict: ItemVerdict }) {
  const verdict = useVerdictIn(kept);
  const source = sourceOf(verdict);
  const takes = verdict.takes?.map(({ words }) => words) ?? verdict.trace.wouldChange;
  return (
    <section className="calculator-verdict" aria-label={verdict.title}>
      <h3>
        <StatusMark status={verdict.status} /> {verdict.title}
      </h3>
      <p>{verdict.reason}</p>
      <CloseMark verdict={verdict} words />
      {verdict.stopWork && <Caution weight="stop">{verdict.stopWork}</Caution>}
      {verdict.status === 'fail' && takes.map((words) => <p key={words}>{words}</p>)}
      {source && <SourceMark source={source} />}
    </section>
  );
}
