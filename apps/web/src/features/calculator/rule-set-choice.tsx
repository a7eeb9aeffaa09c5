import { service } from '@countercheck/contracts';
import { Choice } from '../../components/fields/index.ts';
import { useRoute } from '../../lib/query.ts';

/** The rule sets by key and version, the same in any company's link; an empty choice takes the first offered. */
export function useRuleSets(chosen: string | null) {
  const query = useRoute(service.ruleSets, {});
  const sets = (query.data ?? []).map(({ id, key, version, title, offered }) => ({
    id,
    value: `${key} ${version}`,
    label: `${title} ${version}`,
    offered,
  }));
  const first = sets.find(({ offered }) => offered) ?? sets[0];
  const set = chosen === '' ? first : sets.find(({ value }) => value === chosen);
  return { sets, set: chosen === null ? undefined : set };
}

interface Props extends ReturnType<typeof useRuleSets> {
  onChange(chosen: string | null): void;
}

export function RuleSetChoice({ sets, set, onChange }: Props) {
  return (
    <Choice
      label="Judge by"
      description="The verdict rests on this reading and the facts on this page alone."
      none="No rule set"
      options={sets}
      value={set?.value ?? null}
      onChange={onChange}
    />
  );
}
