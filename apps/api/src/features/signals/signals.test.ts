import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Prisma } from '@countercheck/prisma';
import type { ControlChart, SignalFinding, SignalFindingSummary, SignalRun } from '@countercheck/contracts';
import { startApp, type Client, type TestApp } from '../../../../../tests/support/app.ts';
import { secondWay } from '../../../../../tests/support/second-way.ts';
import { system } from '../../kernel/actor.ts';

let test: TestApp;
let quality: Client;
const raters: string[] = [];
const housesEach = 24;
const day = 86_400_000;
const start = Date.UTC(2026, 2, 2, 15);

/** The same numbers on every machine: a small generator of numbers that look normal. */
let state = 20260301;
const next = () => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return state / 4294967296;
};
const normal = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());

/**
 * Five raters with houses whose statics and ducts were reported by two installers and read, the ducts as a flow or as
 * what the fan's gauge showed; the first writes what was reported.
 */
async function fillYear(): Promise<void> {
  const { builder, ruleSet, installer, instruments } = test.company;
  const { id: calibrationId } = instruments.manometer.calibrations[0]!;
  await test.app.database.as(system, async (db) => {
    const second = await db.installer.create({ data: { name: 'Fitter Two', companyName: 'Other Air' } });
    for (let rater = 0; rater < 5; rater += 1) {
      const raterId = randomUUID();
      raters.push(raterId);
      await db.user.create({
        data: { id: raterId, email: `${raterId}@weir.example`, name: `Rater ${rater}`, role: 'rater' },
      });
      const houses = Array.from({ length: housesEach }, () => ({
        id: randomUUID(),
        visit: randomUUID(),
        system: randomUUID(),
      }));
      const lots = houses.map((_, i) => `R${rater}-${i}`);
      await db.house.createMany({
        data: houses.map(({ id }, i) => ({
          ...{
            id,
            builderId: builder.id,
            communityId: builder.communityId,
            ruleSetId: ruleSet.id,
            lot: lots[i]!,
          },
          ...{
            address: `${lots[i]} Weir Lane`,
            climateZone: '4A',
            conditionedFloorArea: 1800,
            conditionedVolume: 15000,
          },
          ...{
            bedrooms: 2,
            storeys: 1,
            foundation: 'slab' as const,
            ventilationKind: 'none' as const,
            stage: 'in_review' as const,
          },
        })),
      });
      await db.houseSystem.createMany({
        data: houses.map(({ id, system: systemId }) => ({
          id: systemId,
          houseId: id,
          label: 'System 1',
          kind: 'Heat pump',
        })),
      });
      const at = (i: number) => new Date(start + i * 3 * day);
      await db.visit.createMany({
        data: houses.map(({ id, visit }, i) => ({
          ...{ id: visit, houseId: id, raterId, kind: 'final' as const, state: 'submitted' as const },
          ...{
            startsAt: at(i),
            endsAt: new Date(at(i).getTime() + 7_200_000),
            startedAt: at(i),
            submittedAt: new Date(at(i).getTime() + 7_000_000),
          },
        })),
      });
      const submissions: Prisma.InstallerSubmissionCreateManyInput[] = [];
      const readings: Prisma.ReadingCreateManyInput[] = [];
      for (const [i, { id, visit, system: subject }] of houses.entries()) {
        const truth = {
          ...{ supply: 0.11 * Math.exp(0.2 * normal()), return: 0.14 * Math.exp(0.2 * normal()) },
          ducts: 115 * Math.exp(0.2 * normal()),
        };
        const reported = {
          supplyStatic: truth.supply * (1 + 0.02 * normal()),
          returnStatic: truth.return * (1 + 0.02 * normal()),
          ductLeakageAt25: truth.ducts * (1 + 0.02 * normal()),
        };
        const installerId = (i + rater) % 3 === 0 ? second.id : installer.id;
        submissions.push({
          ...{
            houseId: id,
            installerId,
            revision: 1,
            signedName: 'Fitter One',
            frozenAt: at(i),
          },
          figures: { [subject]: reported },
        });
        const read = (figure: number, real: number) =>
          Number((rater === 0 ? figure * (1 + 0.002 * normal()) : real * (1 + 0.01 * normal())).toFixed(4));
        const reading = (test: string, pressure: number, minutes: number) => ({
          ...{ id: randomUUID(), houseId: id, visitId: visit, test, subjectId: subject, takenById: raterId },
          // what the second rater read is from before it was kept which figures he read against
          figuresRevision: rater === 1 ? null : 1,
          ...{
            instrumentId: instruments.manometer.id,
            calibrationId,
            takenAt: new Date(at(i).getTime() + minutes * 60_000),
          },
          raw: { values: { pressure }, choices: {}, rows: [], confirmations: {} },
          entered: { 'values.pressure': { text: String(pressure), unit: 'inH2O' } },
        });
        const [supply, back] = [
          read(reported.supplyStatic, truth.supply),
          read(reported.returnStatic, truth.return),
        ];
        const flow = read(reported.ductLeakageAt25, truth.ducts);
        const byGauge = i % 2 === 0;
        // A meter that reads more and more, 6 % by the end.
        const shown = flow * (1 + (0.06 * i) / housesEach);
        const values = byGauge
          ? { fanPressure: (shown / 23.9) ** 2, ductPressure: -25 }
          : { flow: shown * (24 / 25) ** 0.6, ductPressure: 24 };
        readings.push(reading('supply-static', supply, 5), reading('return-static', -back, 12), {
          ...reading('duct-leakage-total', 0, 20),
          instrumentId: instruments.ductTester.id,
          calibrationId: instruments.ductTester.calibrations[0]!.id,
          raw: { values, choices: byGauge ? { range: 'Ring 2' } : {}, rows: [], confirmations: {} },
          entered: {},
        });
        // Opened again after two honest raters had read, and then signed as they had found it.
        if (rater === 1 || rater === 2)
          submissions.push({
            ...{ houseId: id, installerId, revision: 2, signedName: 'Fitter One' },
            figures: { [subject]: { supplyStatic: supply, returnStatic: back, ductLeakageAt25: flow } },
            frozenAt: new Date(at(i).getTime() + 40 * day),
          });
      }
      await db.installerSubmission.createMany({ data: submissions });
      await db.reading.createMany({ data: readings });
    }
  });
}

async function look(): Promise<SignalRun> {
  const asked = await quality.post('/signal-runs', { from: '2026-01-01', to: '2026-12-31' });
  expect(asked.statusCode, asked.body).toBe(201);
  const { id } = asked.json<SignalRun>();
  let seen: SignalRun | undefined;
  await expect
    .poll(async () => (seen = (await quality.get(`/signal-runs/${id}`)).json<SignalRun>()).state, {
      ...{ timeout: 40_000, interval: 200 },
    })
    .not.toMatch(/waiting|running/);
  return seen!;
}
const findings = async (query = '') =>
  (await quality.get(`/signal-findings${query}`)).json<{ items: SignalFindingSummary[]; total: number }>()
    .items;
const show = async (id: string) => (await quality.get(`/signal-findings/${id}`)).json<SignalFinding>();

beforeAll(async () => {
  test = await startApp();
  quality = await test.as('quality');
  await fillYear();
});
afterAll(() => test.close());

describe('a look at the readings', () => {
  it('tells of copied readings and of nobody who measured', async () => {
    expect(await findings()).toEqual([]);
    const run = await look();
    expect(run).toMatchObject({
      state: 'done',
      result: { raters: 5, houses: 5 * housesEach, readings: 15 * housesEach },
    });
    const found = await findings();
    expect(found.map(({ signal, rater }) => `${signal} ${rater.id}`)).toEqual([`agreement ${raters[0]}`]);
    const whole = await show(found[0]!.id);
    expect(whole.sentence).toMatch(/^\d+ of 72 readings lie within 1 %/);
    expect(whole.behind).toHaveLength(housesEach);
    expect(whole.behind[0]).toMatchObject({ address: expect.stringMatching(/^R0-\d+ Weir Lane$/) as string });
    expect(whole.evidence.rows[0]).toHaveLength(whole.evidence.columns.length);
    expect(run.result!.raterBias.map(({ id }) => id).sort()).toEqual([...raters].sort());
  });

  it('tells of each rater’s bias and each instrument’s drift what a second way of working it out does', async () => {
    const { items } = (await quality.get('/signal-runs')).json<{ items: SignalRun[] }>();
    const { raterBias, instrumentDrift } = items[0]!.result!;
    const period = { from: '2026-01-01', to: '2026-12-31', timezone: 'US/Central' };
    const second = await secondWay(test.urls.ownerUrl, period);
    expect(raterBias).toHaveLength(second.raters.size);
    for (const row of raterBias) {
      const other = second.raters.get(row.id)!;
      expect(row).toMatchObject({ readings: other.readings, houses: other.houses });
      for (const key of ['mean', 'estimate', 'error'] as const)
        expect(row[key], `${row.name} ${key}`).toBeCloseTo(other[key] * 100, 1);
    }
    expect(instrumentDrift.map(({ id }) => id).sort()).toEqual([...second.instruments.keys()].sort());
    for (const row of instrumentDrift) {
      const other = second.instruments.get(row.id)!;
      expect(row.houses).toBe(other.houses);
      expect(row.change).toBeCloseTo(other.change * 100, 1);
      expect(Math.abs(Math.log(row.p / other.p))).toBeLessThan(1e-3);
    }
    const tester = instrumentDrift.find(({ id }) => id === test.company.instruments.ductTester.id)!;
    expect(tester.recall).toBe(true);
    expect(tester.change).toBeGreaterThan(4);
  });

  it('orders what is looked at next, once, from houses behind the finding only', async () => {
    const [found] = await findings();
    const { behind } = await show(found!.id);
    const order = {
      reviews: [behind[0]!.id],
      retests: [behind[1]!.id],
      dueOn: '2027-01-31',
      reason: 'Too near',
    };
    const stranger = await quality.post(`/signal-findings/${found!.id}/order`, {
      ...order,
      reviews: [test.company.house.id],
    });
    expect(stranger.statusCode).toBe(400);
    const answer = await quality.post(`/signal-findings/${found!.id}/order`, order);
    expect(answer.statusCode, answer.body).toBe(200);
    expect(answer.json<SignalFinding>()).toMatchObject({ state: 'ordered', reason: 'Too near' });
    await test.app.database.as(system, async (db) => {
      const ordered = { source: 'signal', signalId: found!.id, raterId: raters[0] };
      expect(await db.fileReview.findFirstOrThrow({ where: { houseId: behind[0]!.id } })).toMatchObject(
        ordered,
      );
      expect(await db.retest.findFirstOrThrow({ where: { houseId: behind[1]!.id } })).toMatchObject(ordered);
      const event = await db.event.findFirst({ where: { action: 'finding on readings followed up' } });
      expect(event).toMatchObject({ recordId: found!.id, reason: 'Too near' });
    });
    const dismissed = await quality.post(`/signal-findings/${found!.id}/dismiss`, { reason: 'No' });
    expect(dismissed.json<{ code: string }>().code).toBe('conflict');
  });

  it('finds the same again, and says what became of it before', async () => {
    await look();
    const [found] = await findings('?state=open');
    expect(await show(found!.id)).toMatchObject({ earlier: [{ state: 'ordered', reason: 'Too near' }] });
    const answer = await quality.post(`/signal-findings/${found!.id}/dismiss`, { reason: 'Read together' });
    expect(answer.json<SignalFinding>()).toMatchObject({ state: 'dismissed', reason: 'Read together' });
    expect((await quality.post(`/signal-findings/${found!.id}/dismiss`, { reason: 'x' })).statusCode).toBe(
      409,
    );
  });
});

describe('a control chart', () => {
  const chart = (query: string) => quality.get(`/control-charts?${query}`);
  it.each(['rater', 'installer', 'instrument'] as const)(
    'follows the readings of the %s',
    async (subject) => {
      const id = {
        rater: raters[1]!,
        installer: test.company.installer.id,
        instrument: test.company.instruments.manometer.id,
      };
      const answer = await chart(`subject=${subject}&id=${id[subject]}&item=supply-static`);
      expect(answer.statusCode, answer.body).toBe(200);
      const { points, limits } = answer.json<ControlChart>();
      // Two of three houses are by the first installer.
      const read = { rater: housesEach, installer: (5 * housesEach * 2) / 3, instrument: 5 * housesEach };
      expect(points).toHaveLength(read[subject]);
      const mean = points.reduce((sum, { value }) => sum + value, 0) / points.length;
      expect(limits!.mean).toBeCloseTo(mean, 2);
      expect(limits!.upper - limits!.mean).toBeCloseTo(3 * limits!.sigma, 2);
    },
  );

  it.each([1, 2])('holds what rater %i read against the figures that he read against', async (rater) => {
    const { points } = (
      await chart(`subject=rater&id=${raters[rater]!}&item=supply-static`)
    ).json<ControlChart>();
    expect(points.filter(({ value }) => Math.abs(value) < 0.01).length).toBeLessThan(3);
  });

  it('of somebody who read nothing is empty, of nobody is refused', async () => {
    const empty = (await chart(`subject=rater&id=${raters[1]!}&item=bath-exhaust`)).json<ControlChart>();
    expect(empty).toMatchObject({ points: [], limits: null });
    expect((await chart(`subject=rater&id=${randomUUID()}&item=bath-exhaust`)).statusCode).toBe(404);
  });
});
