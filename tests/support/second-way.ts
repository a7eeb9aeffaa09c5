import { withClient } from '@countercheck/host/database';

/**
 * Bias of raters and drift of instruments worked out a second time, by other code on rows as the database has them:
 * for tests that hold what the pages show against it. Nothing of the packages is used.
 */
interface SecondWay {
  raters: Map<string, { readings: number; houses: number; mean: number; estimate: number; error: number }>;
  instruments: Map<string, { houses: number; change: number; p: number }>;
}

interface Row {
  house: string;
  rater: string;
  instrument: string | null;
  installer: string | null;
  test: string;
  at: Date;
  values: Record<string, number>;
  range: string | null;
  rows: { values: Record<string, number>; choices: Record<string, string> }[];
  ranges: { range: string; c: number; n: number }[] | null;
  figures: Record<string, number> | null;
}

const exported = `
  SELECT r.house_id AS house, r.taken_by_id AS rater, r.instrument_id AS instrument, r.test, r.taken_at AS at,
    r.raw->'values' AS values, r.raw->'choices'->>'range' AS range, r.raw->'rows' AS rows,
    (SELECT c.ranges FROM instrument_calibrations c WHERE c.instrument_id = r.instrument_id
       AND c.calibrated_on <= (r.taken_at AT TIME ZONE $3)::date ORDER BY c.calibrated_on DESC LIMIT 1) AS ranges,
    f.installer_id AS installer, f.figures -> r.subject_id AS figures
  FROM readings r
  LEFT JOIN installer_submissions f ON f.house_id = r.house_id AND f.revision = coalesce(
    (SELECT g.revision FROM installer_submissions g WHERE g.house_id = r.house_id AND g.revision = r.figures_revision),
    (SELECT min(g.revision) FROM installer_submissions g WHERE g.house_id = r.house_id AND g.frozen_at IS NOT NULL),
    (SELECT max(g.revision) FROM installer_submissions g WHERE g.house_id = r.house_id))
  WHERE r.test IN ('supply-static', 'return-static', 'duct-leakage-total', 'whole-house-ventilation',
    'kitchen-exhaust', 'bath-exhaust') AND (r.taken_at AT TIME ZONE $3)::date BETWEEN $1 AND $2`;

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
const average = (values: readonly number[]) => sum(values) / values.length;
const middle = (values: readonly number[]) => {
  const sorted = values.toSorted((a, b) => a - b);
  return (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
};
function by<T, K>(list: readonly T[], key: (each: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const each of list) groups.set(key(each), [...(groups.get(key(each)) ?? []), each]);
  return groups;
}
const bounded = (value: number) => (value > 0.2 ? 0.2 : value < -0.2 ? -0.2 : value);

/** What was read and what had been reported, both in the stored unit; null where one is missing. */
function pairOf({ test, values, range, rows, ranges, figures }: Row): [number, number] | null {
  if (test.endsWith('static')) {
    const reported = figures?.[test === 'supply-static' ? 'supplyStatic' : 'returnStatic'];
    return reported && values['pressure'] ? [Math.abs(values['pressure']), reported] : null;
  }
  if (test === 'duct-leakage-total') {
    // Entered as a flow, or as what the fan's gauge showed, which its calibration turns into one.
    const ring = ranges?.find((each) => each.range === range);
    const fan = values['fanPressure'];
    const flow = values['flow'] ?? (ring && fan ? ring.c * Math.exp(ring.n * Math.log(Math.abs(fan))) : null);
    const reported = figures?.['ductLeakageAt25'];
    if (flow === null || !reported || !values['ductPressure']) return null;
    return [flow / (Math.abs(values['ductPressure']) / 25) ** 0.6, reported];
  }
  const reported = figures?.['exhaustFlow'];
  const counted = rows.filter(
    ({ choices }) => test !== 'whole-house-ventilation' || choices['airstream'] !== 'supply',
  );
  if (!reported || counted.length === 0) return null;
  return [sum(counted.map((each) => each.values['flow'] ?? 0)), reported];
}

/** Two-sided tail of Student's t by Simpson's rule over its density, in the angle whose tangent is t ÷ √ν. */
function beyond(t: number, freedom: number): number {
  const [from, to, steps] = [Math.atan(Math.abs(t) / Math.sqrt(freedom)), Math.PI / 2, 20_000];
  const simpson = (low: number) => {
    const h = (to - low) / steps;
    let total = 0;
    for (let i = 0; i <= steps; i += 1)
      total += Math.cos(low + i * h) ** (freedom - 1) * (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2);
    return (total * h) / 3;
  };
  return simpson(from) / simpson(0);
}

export async function secondWay(
  ownerUrl: string,
  { from, to, timezone }: { from: string; to: string; timezone: string },
): Promise<SecondWay> {
  const raw = await withClient(
    ownerUrl,
    async (client) => (await client.query(exported, [from, to, timezone])).rows as Row[],
  );
  const rows = raw.flatMap((row) => {
    const pair = pairOf(row);
    return pair && pair[0] > 0 && pair[1] > 0 ? [{ ...row, off: Math.log(pair[0]) - Math.log(pair[1]) }] : [];
  });
  const items = new Map(
    [...by(rows, ({ test }) => test)].map(([k, g]) => [k, middle(g.map(({ off }) => off))]),
  );
  const rest = rows.map((row) => ({ ...row, rest: row.off - items.get(row.test)! }));
  // Raters' and installers' middles in turn, until they stand.
  let ofRater = new Map<string, number>();
  let ofInstaller = new Map<string | null, number>();
  for (let turn = 0; turn < 12; turn += 1) {
    ofInstaller = new Map(
      [...by(rest, ({ installer }) => installer)].map(([k, g]) => [
        k,
        middle(g.map((each) => each.rest - (ofRater.get(each.rater) ?? 0))),
      ]),
    );
    ofRater = new Map(
      [...by(rest, ({ rater }) => rater)].map(([k, g]) => [
        k,
        middle(g.map((each) => each.rest - ofInstaller.get(each.installer)!)),
      ]),
    );
  }
  const left = rest.map((row) => ({ ...row, left: row.rest - ofInstaller.get(row.installer)! }));
  const houses = (group: typeof left) =>
    [...by(group, ({ house }) => house).values()].map((of) => ({
      y: average(of.map((each) => bounded(each.left))),
      x: Math.min(...of.map(({ at }) => at.getTime())),
    }));

  const groups = [...by(left, ({ rater }) => rater)]
    .map(([id, group]) => ({ id, readings: group.length, ys: houses(group).map(({ y }) => y) }))
    .filter(({ ys }) => ys.length >= 2)
    .map((group) => ({ ...group, n: group.ys.length, mean: average(group.ys) }));
  // Analysis of variance with unequal groups; the moments' estimate of what lies between them.
  const all = sum(groups.map(({ n }) => n));
  const within =
    sum(groups.map(({ ys, mean }) => sum(ys.map((y) => (y - mean) ** 2)))) / (all - groups.length);
  const grand = sum(groups.map(({ n, mean }) => n * mean)) / all;
  const between = sum(groups.map(({ n, mean }) => n * (mean - grand) ** 2));
  const tau = Math.max(
    0,
    (between - (groups.length - 1) * within) / (all - sum(groups.map(({ n }) => n * n)) / all),
  );
  const precision = groups.map(({ n }) => 1 / (tau + within / n));
  const centre = sum(groups.map(({ mean }, i) => mean * precision[i]!)) / sum(precision);
  const raters = new Map(
    groups.map(({ id, readings, n, mean }) => {
      const own = tau === 0 ? 0 : 1 / (1 + within / n / tau);
      const error = Math.sqrt((own * within) / n);
      return [id, { readings, houses: n, mean, estimate: own * mean + (1 - own) * centre, error }] as const;
    }),
  );

  const instruments = new Map(
    [...by(left, ({ instrument }) => instrument)].flatMap(([id, group]) => {
      const points = houses(group);
      if (id === null || points.length < 20) return [];
      const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
      const [mx, my] = [average(xs), average(ys)];
      const covariance = average(points.map(({ x, y }) => (x - mx) * (y - my)));
      const [vx, vy] = [average(xs.map((x) => (x - mx) ** 2)), average(ys.map((y) => (y - my) ** 2))];
      const change = (covariance / vx) * (Math.max(...xs) - Math.min(...xs));
      const r = covariance / Math.sqrt(vx * vy);
      const freedom = points.length - 2;
      const p = beyond(r * Math.sqrt(freedom / (1 - r * r)), freedom);
      return [[id, { houses: points.length, change, p }] as const];
    }),
  );
  return { raters, instruments };
}
