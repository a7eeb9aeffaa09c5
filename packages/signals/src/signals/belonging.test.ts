import { describe, expect, test } from 'vitest';
import { beginHouses } from '../comparison/strange-houses.ts';
import type { Figure } from '../figures.ts';
import { Random } from '../statistics/random.ts';
import { belonging } from './belonging.ts';

const items = ['supply-static', 'return-static', 'bath-exhaust', 'kitchen-exhaust'] as const;
const insideOf = (item: string) => (item.endsWith('static') ? ('below' as const) : ('above' as const));

interface House {
  rater: number;
  installer: string;
  random: Random;
}
/** What a house has, what was reported for it, and what is written down. */
type Write = (truth: number, at: House & { item: string }) => { reported: number; value: number };

const honest: Write = (truth, { random }) => ({
  reported: truth * random.normal(1, 0.02),
  value: truth * random.normal(1, 0.01),
});
const another = ({ random }: House) => Math.exp(random.normal(0, 0.25));

/** Six raters with 24 houses each, installed by four in turn, or as `installerOf` says. */
function look(write: Write, installerOf = (_: number, n: number) => `installer ${n % 4}`) {
  const begun = beginHouses();
  const random = new Random(31);
  for (let rater = 0; rater < 6; rater += 1) {
    const figures = Array.from({ length: 24 }, (_, n) => {
      const house = { rater, installer: installerOf(rater, n), random };
      const one = { houseId: `${rater}/${n}`, raterId: `r${rater}`, installerId: house.installer };
      return items.map((item): Figure => {
        const truth = another(house);
        const { reported, value } = write(truth, { ...house, item });
        const limit = { value: reported, inside: insideOf(item) };
        return {
          ...{ ...one, item, reported, value, limit, readingId: `${one.houseId}/${item}`, place: '1', at: n },
          ...{ instrumentId: null, uncertainty: null, readAgain: false, plan: null, shown: [], doubts: [] },
        };
      });
    }).flat();
    begun.add({ raterId: `r${rater}`, figures });
  }
  return begun.houses();
}

test('houses that were made up are told of, by the houses, and those that were measured are not', () => {
  const houses = look((truth, at) =>
    at.rater === 0 && at.installer === 'installer 0'
      ? { ...honest(truth, at), value: another(at) }
      : honest(truth, at),
  );
  const told = belonging('r0', houses);
  expect(told.p).toBeLessThan(1e-3);
  expect(told.houseIds.length).toBeGreaterThanOrEqual(4);
  expect(told.houseIds.every((id) => Number(id.split('/')[1]) % 4 === 0)).toBe(true);
  expect(told.sentence).toMatch(
    /^In \d of 24 houses the readings, taken together, are likelier .+ 0 of 120 that/,
  );
  expect(told.evidence.rows[0]).toHaveLength(told.evidence.columns.length);
  expect(belonging('r1', houses).p).toBeGreaterThan(0.1);
});

describe('it is no sign', () => {
  test('that an installer’s figures are a tenth kinder than a house, throughout', () => {
    const houses = look((truth, at) => {
      const { reported, value } = honest(truth, at);
      const favour = at.rater === 0 && at.installer === 'installer 0' ? 0.12 : 0;
      return { value, reported: reported * (insideOf(at.item) === 'below' ? 1 - favour : 1 + favour) };
    });
    expect(belonging('r0', houses).p).toBeGreaterThan(0.1);
  });

  test('that an installer makes up his figures, when others find so too', () => {
    const houses = look((truth, at) =>
      at.installer === 'installer 0' ? { ...honest(truth, at), reported: another(at) } : honest(truth, at),
    );
    expect(belonging('r0', houses).p).toBeGreaterThan(0.1);
  });

  test('… and when nobody else has been to his houses', () => {
    const houses = look(
      (truth, at) =>
        at.installer === 'own' ? { ...honest(truth, at), reported: another(at) } : honest(truth, at),
      (rater, n) => (rater === 0 && n % 2 === 0 ? 'own' : `installer ${n % 4}`),
    );
    expect(belonging('r0', houses)).toMatchObject({ looked: 12, houseIds: [] });
  });

  test('that a point slipped in some numbers', () => {
    const houses = look((truth, at) => {
      const { reported, value } = honest(truth, at);
      return { reported, value: at.rater === 0 && at.random.chance(0.15) ? value * 10 : value };
    });
    expect(belonging('r0', houses).p).toBeGreaterThan(0.1);
  });

  test('that a rater’s instrument reads a tenth high, or scatters twice as much', () => {
    const houses = look((truth, at) => {
      const { reported, value } = honest(truth, at);
      if (at.rater === 0) return { reported, value: value * 1.1 };
      return { reported, value: at.rater === 1 ? value * at.random.normal(1, 0.04) : value };
    });
    expect(belonging('r0', houses).p).toBeGreaterThan(0.1);
    expect(belonging('r1', houses).p).toBeGreaterThan(0.1);
  });
});

test('with nobody to hold houses against nothing is said', () => {
  const houses = look(honest);
  const few = new Map([...houses].slice(0, 1));
  expect(belonging('r0', few).p).toBeNull();
});
