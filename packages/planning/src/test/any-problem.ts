import * as fc from 'fast-check';
import type { PlanProblem, PlanRater, PlanVisit, WorkingDay } from '../index.ts';

const hour = 60;
const dayLength = 24 * hour;
const skills = ['one', 'two'];
const some = fc.subarray(skills);

const anyDay = (day: number, places: number): fc.Arbitrary<WorkingDay> =>
  fc
    .record({
      from: fc.integer({ min: 5 * hour, max: 10 * hour }),
      length: fc.integer({ min: 2 * hour, max: 11 * hour }),
      startPlace: fc.nat(places - 1),
      endPlace: fc.nat(places - 1),
      pause: fc.option(
        fc.record({
          minutes: fc.constantFrom(15, 30, 45),
          after: fc.integer({ min: 0, max: 7 * hour }),
          span: fc.integer({ min: 0, max: 3 * hour }),
        }),
      ),
      room: fc.option(fc.integer({ min: 1, max: 4 })),
    })
    .map(({ from, length, pause, ...rest }) => {
      const starts = day * dayLength + from;
      const first = starts + (pause?.after ?? 0);
      return {
        ...rest,
        ...{ day, from: starts, to: starts + length },
        pause: pause && { minutes: pause.minutes, startsWithin: { from: first, to: first + pause.span } },
      };
    });

const anyRater = (index: number, places: number): fc.Arbitrary<PlanRater> =>
  fc
    .record({
      qualifications: some,
      instruments: some,
      share: fc.constantFrom(0, 1, 1, 2),
      days: fc.tuple(
        fc.option(anyDay(0, places)),
        fc.option(anyDay(1, places)),
        fc.option(anyDay(2, places)),
      ),
    })
    .map(({ days, ...rest }) => ({
      id: `rater ${index}`,
      ...rest,
      days: days.flatMap((each) => each ?? []),
    }));

const anyVisit = (index: number, places: number, raters: number): fc.Arbitrary<PlanVisit> => {
  const rater = fc.nat(raters - 1).map((each) => `rater ${each}`);
  const appointment = fc.record({
    rater,
    start: fc.integer({ min: 0, max: 3 * dayLength }),
  });
  return fc
    .record({
      place: fc.nat(places - 1),
      minutes: fc.integer({ min: 5, max: 240 }),
      days: fc.subarray([0, 1, 2]),
      opens: fc.integer({ min: 4 * hour, max: 14 * hour }),
      length: fc.integer({ min: 0, max: 10 * hour }),
      instruments: some,
      qualifications: some,
      notRaters: fc.array(rater, { maxLength: 1 }),
      avoidRater: fc.option(rater),
      priority: fc.constantFrom(1, 1, 3),
      wantedFrom: fc.option(fc.constantFrom(0, dayLength)),
      fixed: fc.option(appointment, { freq: 8 }),
      promised: fc.option(appointment, { freq: 4 }),
    })
    .map(({ days, opens, length, ...rest }) => ({
      ...{ id: `visit ${index}`, size: 1, ...rest },
      windows: days.map((day) => ({
        from: day * dayLength + opens,
        to: day * dayLength + opens + length,
      })),
    }));
};

/** Problems with everything that a plan may have to do with, also with much that cannot be met. */
export const anyProblem: fc.Arbitrary<PlanProblem> = fc
  .record({
    places: fc.integer({ min: 1, max: 6 }),
    raters: fc.integer({ min: 1, max: 4 }),
    visits: fc.nat(12),
  })
  .chain(({ places, raters, visits }) =>
    fc
      .record({
        visits: fc.tuple(...Array.from({ length: visits }, (_, i) => anyVisit(i, places, raters))),
        raters: fc.tuple(...Array.from({ length: raters }, (_, i) => anyRater(i, places))),
        minutes: fc.array(fc.integer({ min: 0, max: 90 }), {
          minLength: places ** 2,
          maxLength: places ** 2,
        }),
        startStep: fc.constantFrom(0, 5, 15),
        weights: fc.record({
          ...{ driveMinute: fc.constant(1), distance: fc.constant(0), unplaced: fc.constant(10_000) },
          ...{ avoidedRater: fc.constantFrom(0, 60), waitingDay: fc.constantFrom(0, 10) },
          ...{ overShareMinute: fc.constantFrom(0, 0.25), farOverShareMinute: fc.constantFrom(0, 0.5) },
          ...{ movedRater: fc.constant(90), movedDay: fc.constant(240), movedLater: fc.constant(60) },
          promiseTolerance: fc.constantFrom(0, 15),
        }),
      })
      .map(({ minutes, ...rest }) => ({
        ...rest,
        travel: {
          places,
          // Matrices from outside keep neither the triangle's rule nor the same way back, so these do not.
          minutes: Float64Array.from(minutes, (each, i) => (i % (places + 1) === 0 ? 0 : each)),
          distance: Float64Array.from(minutes),
        },
      })),
  );
