import { kinds } from './kinds.ts';
import { hard, mixed, type Circumstances } from './company.ts';
import { signalKeys } from '../signals/keys.ts';
import { falseAlarms, kindKeys, power, type Power } from './study.ts';

/**
 * How often the signals are right and wrong, on simulated raters. Usage: npm run signals [runs] [companies] [seed]
 */
const runs = Number(process.argv[2] ?? 200);
const companies = Number(process.argv[3] ?? 40);
const seed = Number(process.argv[4] ?? 20260501);
const say = (line = '') => console.log(line);
const inPercent = (share: number) => `${(share * 100).toFixed(1)} %`;

function tellHonest(words: string, from: number, given: Circumstances) {
  const honest = falseAlarms(companies, from, 20, 120, given);
  say(
    `Honest raters${words}: ${companies} companies of ${honest.raters}, 120 houses each a year, looked at every month`,
  );
  say(
    `  ${honest.alarms} raters told of, ${honest.perTwenty.toFixed(3)} per 20 raters a year; companies with any: ${inPercent(honest.years.found / companies)} (95 %: ${inPercent(honest.years.low)} to ${inPercent(honest.years.high)})`,
  );
  say(`  by signal: ${signalKeys.map((key) => `${key} ${honest.bySignal[key]}`).join(', ')}`);
}
tellHonest('', seed, mixed);
const apart = 50_000;
tellHonest(' who are unlike each other', seed + apart, hard);

function tell({ kind, words, found, bySignal }: Power) {
  const by = signalKeys
    .filter((key) => bySignal[key] > 0)
    .map((key) => `${key} ${inPercent(bySignal[key] / runs)}`);
  say(`  ${kind}: ${words}`);
  say(
    `    found ${inPercent(found.found / runs)} (95 %: ${inPercent(found.low)} to ${inPercent(found.high)}) by ${by.join(', ') || 'nothing'}`,
  );
}
const groups: [Power['blind'], string][] = [
  ['no', `One dishonest rater among ten, found within 30 houses by a look each month, ${runs} runs a kind`],
  ['once', 'Kinds that were kept out at first and seen since'],
  ['yes', 'Kinds written down before the last change of a test and run once after it'],
];
for (const [blind, words] of groups) {
  say();
  say(words);
  kindKeys.forEach((kind, i) => {
    if (kinds[kind]!.blind === blind) tell(power(kind, runs, seed + 100_000 * (i + 1)));
  });
}
