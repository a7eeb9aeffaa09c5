import { describe, expect, it } from 'vitest';
import { opened, refusalOf } from '../testing/opened.ts';
import { cholesky, correlationProblem } from './correlation.ts';
import { deviate, type Distribution } from './distributions.ts';
import { type DrawnInput, monteCarlo } from './monte-carlo.ts';
import { propagate } from './propagate.ts';
import { randomStream } from './random.ts';
import { sensitivity } from './sensitivity.ts';

describe('the stream of random numbers', () => {
  // sfc32 after twenty steps, worked out independently in whole numbers of another language
  it.each([
    [1, [0.7601436303230003, 0.6436788948485628, 0.9171349379466847, 0.8202995819738135]],
    [20260501, [0.232301507727243, 0.9380404680268839, 0.1078370661707595, 0.8914317920571193]],
    [-3, [0.6402444349369034, 0.4501740849809721, 0.5217521089361981, 0.5828022443456575]],
  ])('of seed %s begins alike on every machine', (seed, first) => {
    const { uniform } = randomStream(seed);
    expect(first.map(uniform)).toEqual(first);
  });

  it('makes two normal numbers of two uniform ones, by Box and Muller', () => {
    const { normal } = randomStream(20260501);
    expect([normal(), normal()]).toEqual([
      expect.closeTo(1.5807855195172826, 12),
      expect.closeTo(-0.6485024586500033, 12),
    ]);
    const fresh = randomStream(20260501);
    for (let i = 0; i < 2; i++) fresh.uniform();
    expect(normal()).toBe(fresh.normal());
  });
});

describe('a deviation', () => {
  const many = (distribution: Distribution, df = Infinity) => {
    const stream = randomStream(11);
    return Array.from({ length: 4000 }, () => deviate(distribution, stream, df));
  };
  const mean = (drawn: readonly number[]) => drawn.reduce((sum, each) => sum + each, 0) / drawn.length;

  // fourth moments of a unit variance: 1.8, 2.4, 1.5, 3 and for t with 9 degrees of freedom 3 · 81 / (7 · 5)
  it.each<[Distribution, number, number, number, number]>([
    ['rectangular', Infinity, Math.sqrt(3), 1, 1.8],
    ['triangular', Infinity, Math.sqrt(6), 1, 2.4],
    ['arcsine', Infinity, Math.SQRT2, 1, 1.5],
    ['normal', Infinity, 5, 1, 3],
    ['student-t', Infinity, 5, 1, 3],
    ['student-t', 9, 12, 9 / 7, (3 * 81) / 35],
  ])(
    'of shape %s (%s degrees of freedom) has its ends, spread and tails',
    (shape, df, end, variance, fourth) => {
      const drawn = many(shape, df);
      expect(Math.max(...drawn.map(Math.abs))).toBeLessThanOrEqual(end);
      expect(Math.max(...drawn)).toBeGreaterThan(Math.min(end * 0.9, 3));
      expect(Math.min(...drawn)).toBeLessThan(-Math.min(end * 0.9, 3));
      expect(Math.abs(mean(drawn))).toBeLessThan(0.06);
      expect(mean(drawn.map((each) => each ** 2)) / variance).toBeCloseTo(1, 1);
      // the fourth moment of few degrees of freedom settles slowly
      expect(Math.abs(mean(drawn.map((each) => each ** 4)) / fourth - 1)).toBeLessThan(df === 9 ? 0.6 : 0.25);
    },
  );

  it('of a rectangle and a swing is that of one uniform number, of a triangle of two', () => {
    const from = (shape: Distribution) => deviate(shape, randomStream(1), Infinity);
    expect(from('rectangular')).toBeCloseTo(Math.sqrt(3) * (2 * 0.7601436303230003 - 1), 12);
    expect(from('triangular')).toBeCloseTo(Math.sqrt(6) * (0.7601436303230003 + 0.6436788948485628 - 1), 12);
    expect(from('arcsine')).toBeCloseTo(Math.SQRT2 * Math.cos(Math.PI * 0.7601436303230003), 12);
    expect(from('normal')).toBe(randomStream(1).normal());
  });

  it('of Student’s shape is Bailey’s, from two uniform numbers', () => {
    const [u, v] = [0.7601436303230003, 0.6436788948485628];
    const polar = Math.sqrt(4 * (u ** (-2 / 4) - 1)) * Math.cos(2 * Math.PI * v);
    expect(deviate('student-t', randomStream(1), 4)).toBeCloseTo(polar, 12);
  });
});

describe('a simulation', () => {
  const two: DrawnInput[] = [
    { value: 10, u: 2 },
    { value: -4, u: 1, distribution: 'rectangular' },
  ];

  /** Every draw as the function saw it, and what came of them. */
  function watched(inputs: readonly DrawnInput[], draws: number, correlation?: number[][]) {
    const seen: number[][] = [];
    const fn = (values: readonly number[]) => {
      seen.push([...values]);
      return values.reduce((sum, each) => sum + each, 0);
    };
    return { found: opened(monteCarlo(fn, inputs, 5, draws, correlation)), seen };
  }

  it('gives mean, deviation and both intervals of just the draws that the function saw', () => {
    const { found, seen } = watched(two, 1001);
    const results = seen.map(([a = 0, b = 0]) => a + b).sort((a, b) => a - b);
    const mean = results.reduce((sum, each) => sum + each, 0) / 1001;
    const squares = results.reduce((sum, each) => sum + (each - mean) ** 2, 0);
    // 95 % of 1,001 are 951; 25 are left below and 24 above
    const widths = Array.from({ length: 50 }, (_, i) => results[i + 951]! - results[i]!);
    const at = widths.indexOf(Math.min(...widths));
    expect(seen).toHaveLength(1001);
    expect(found.draws).toBe(1001);
    expect(found.mean).toBeCloseTo(mean, 9);
    expect(found.standardUncertainty).toBeCloseTo(Math.sqrt(squares / 1000), 9);
    expect([found.low, found.high]).toEqual([results[25], results[976]]);
    expect([found.shortest.low, found.shortest.high]).toEqual([results[at], results[at + 951]]);
  });

  it('draws each quantity about its value, by its own shape and uncertainty', () => {
    const { seen } = watched(two, 2000);
    const column = (i: number) => seen.map((values) => values[i]!);
    const mean = (drawn: number[]) => drawn.reduce((sum, each) => sum + each, 0) / drawn.length;
    expect(mean(column(0))).toBeCloseTo(10, 0);
    expect(mean(column(1))).toBeCloseTo(-4, 1);
    expect(Math.max(...column(1).map((each) => Math.abs(each + 4)))).toBeLessThanOrEqual(Math.sqrt(3));
    expect(Math.max(...column(1).map((each) => Math.abs(each + 4)))).toBeGreaterThan(1.7);
    expect(Math.max(...column(0))).toBeGreaterThan(15);
  });

  it('draws fully correlated quantities together and opposed ones apart', () => {
    const pair: DrawnInput[] = [
      { value: 1, u: 3 },
      { value: 5, u: 4 },
    ];
    for (const r of [1, -1]) {
      const { seen } = watched(pair, 1000, [
        [1, r],
        [r, 1],
      ]);
      for (const [a = 0, b = 0] of seen.slice(0, 50)) expect((b - 5) / 4).toBeCloseTo((r * (a - 1)) / 3, 12);
    }
    const { found } = watched(pair, 4000, [
      [1, 0.6],
      [0.6, 1],
    ]);
    // √(9 + 16 + 2 · 0.6 · 12)
    expect(Math.abs(found.standardUncertainty / Math.sqrt(39.4) - 1)).toBeLessThan(0.04);
  });

  it('is refused in words', () => {
    const sum = () => 0;
    const normal = [{ value: 0, u: 1 }];
    const draws = 'The number of draws is 999; from 1000 to 5000000.';
    expect(refusalOf(monteCarlo(sum, normal, 1, 999))).toBe(draws);
    expect(opened(monteCarlo(sum, normal, 1, 1000)).draws).toBe(1000);
    expect(refusalOf(monteCarlo(sum, [], 1, 1000))).toBe('There is nothing to compute from.');
    expect(refusalOf(monteCarlo(() => NaN, normal, 1, 1000))).toBe('A draw gave no number.');
    expect(refusalOf(monteCarlo(sum, [{ value: 0, u: 1, distribution: 'arcsine' }], 1, 1000, [[1]]))).toBe(
      'Only normal quantities can be drawn correlated.',
    );
    expect(opened(monteCarlo(sum, [{ value: 0, u: 1, distribution: 'normal' }], 1, 1000, [[1]])).mean).toBe(
      0,
    );
  });
});

describe('correlations', () => {
  const words = (count: number) =>
    `The correlations must be a symmetric ${count} by ${count} table with ones on the diagonal that quantities can have together.`;

  it.each([
    ['with another number of rows', 2, [[1]]],
    ['with a row too short', 2, [[1, 0], [0]]],
    ['with another diagonal', 1, [[0.9]]],
    [
      'beyond one',
      2,
      [
        [1, 1.01],
        [1.01, 1],
      ],
    ],
    [
      'beyond minus one',
      2,
      [
        [1, -1.01],
        [-1.01, 1],
      ],
    ],
    [
      'that is not symmetric',
      2,
      [
        [1, 0.2],
        [0.3, 1],
      ],
    ],
    [
      'that no three quantities can have',
      3,
      [
        [1, 0.9, -0.9],
        [0.9, 1, 0.9],
        [-0.9, 0.9, 1],
      ],
    ],
  ])('%s are refused in words', (_what, count, table) => {
    expect(correlationProblem(count, table)).toEqual({
      ok: false,
      problem: { path: 'correlation', code: 'bad-correlation', message: words(count) },
    });
  });

  it.each([
    ['none', undefined],
    [
      'independent ones',
      [
        [1, 0],
        [0, 1],
      ],
    ],
    [
      'full ones',
      [
        [1, 1],
        [1, 1],
      ],
    ],
    [
      'opposed ones',
      [
        [1, -1],
        [-1, 1],
      ],
    ],
    [
      'ordinary ones',
      [
        [1, 0.5],
        [0.5, 1],
      ],
    ],
  ])('%s can be', (_what, table) => expect(correlationProblem(2, table)).toBeNull());

  // L · Lᵀ by hand: 0.5² + 0.866² = 1, 0.2 = 0.2, 0.5 · 0.2 + 0.866 · l = 0.4
  it('have a lower triangle whose square they are', () => {
    const lower = cholesky([
      [1, 0.5, 0.2],
      [0.5, 1, 0.4],
      [0.2, 0.4, 1],
    ])!;
    const l = 0.3 / Math.sqrt(0.75);
    const wanted = [[1], [0.5, Math.sqrt(0.75)], [0.2, l, Math.sqrt(1 - 0.04 - l * l)]];
    lower.forEach((row, i) => row.forEach((each, j) => expect(each).toBeCloseTo(wanted[i]![j]!, 12)));
    expect(lower.map((row) => row.length)).toEqual([1, 2, 3]);
  });

  it('have one also where some are full, and none where that cannot be', () => {
    expect(
      cholesky([
        [1, 1, 0],
        [1, 1, 0],
        [0, 0, 1],
      ]),
    ).toEqual([[1], [1, 0], [0, 0, 1]]);
    expect(
      cholesky([
        [1, 1, 0],
        [1, 1, 0.5],
        [0, 0.5, 1],
      ]),
    ).toBeNull();
    expect(
      cholesky([
        [1, 2],
        [2, 1],
      ]),
    ).toBeNull();
    // a variance that rounding left a little below zero
    expect(
      cholesky([
        [1, 1],
        [1, 1 - 1e-10],
      ]),
    ).toEqual([[1], [1, 0]]);
  });
});

describe('the slope by differences', () => {
  it('is exact for a polynomial of the fourth degree, at its own place only', () => {
    const fn = ([x = 0, y = 0]: readonly number[]) => 100 * y + x ** 4 - 3 * x;
    expect(sensitivity(fn, [2, 7], 0, 0.5)).toBeCloseTo(29, 9);
    expect(sensitivity(fn, [2, 7], 1, 0.5)).toBeCloseTo(100, 9);
  });

  it('steps a small part of the uncertainty, a millionth of a value without one, and never nothing', () => {
    const steps = (value: number, u: number) => {
      const at: number[] = [];
      sensitivity(([x = 0]) => (at.push(x), x), [value], 0, u);
      return at.map((x) => x - value).sort((a, b) => a - b);
    };
    const close = (wanted: number[]) => wanted.map((each) => expect.closeTo(each, 12) as number);
    expect(steps(10, 64)).toEqual(close([-2, -1, 1, 2]));
    expect(steps(-1000, 0)).toEqual(close([-2e-3, -1e-3, 1e-3, 2e-3]));
    expect(steps(0, 0)).toEqual(close([-2e-6, -1e-6, 1e-6, 2e-6]));
    expect(steps(1e6, 1)).toEqual(close([-2, -1, 1, 2]));
  });
});

describe('propagation', () => {
  it('uses the lowest degrees of freedom of correlated quantities', () => {
    const inputs = [
      { value: 1, u: 1, df: 12 },
      { value: 1, u: 1, df: 7 },
      { value: 1, u: 1 },
    ];
    const none = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
    const sum = (values: readonly number[]) => values.reduce((total, each) => total + each, 0);
    expect(opened(propagate(sum, inputs, none)).degreesOfFreedom).toBe(7);
    // Welch and Satterthwaite: 3² / (1/12 + 1/7)
    expect(opened(propagate(sum, inputs)).degreesOfFreedom).toBeCloseTo(9 / (1 / 12 + 1 / 7), 9);
  });

  it('says whose number of degrees of freedom cannot be', () => {
    expect(refusalOf(propagate(() => 0, [{ label: 'Flow', value: 1, u: 1, df: 0 }]))).toBe(
      'Flow has 0 degrees of freedom; above zero.',
    );
    expect(refusalOf(propagate(() => NaN, [{ value: 1, u: 1 }]))).toBe(
      'The function gives no number at or near these values.',
    );
  });

  it('has no uncertainty of its own to share out where nothing is uncertain', () => {
    const { budget } = opened(
      propagate(
        ([a = 0, b = 0]) => 3 * a - 4 * b,
        [
          { value: 1, u: 2 },
          { value: 1, u: 1.5 },
        ],
      ),
    );
    expect(budget.map(({ contribution }) => contribution)).toEqual([
      expect.closeTo(6, 9),
      expect.closeTo(6, 9),
    ]);
    expect(budget.map(({ share }) => share)).toEqual([expect.closeTo(0.5, 9), expect.closeTo(0.5, 9)]);
  });
});
