import type { Figure, Photo, RaterYear, Stop } from '../figures.ts';
import { Random } from '../statistics/random.ts';
import { honestKind, type Kind } from './kinds.ts';
import { fanPressure, newDevice, newHouse, read, toStep, type Device, type TrueField } from './world.ts';

const accuracies = { manometer: 0.01, fan: 0.03, flow: 0.05 } as const;
const steps = { manometer: 0.1, fan: 0.1, flow: 1 } as const;
const slip = 0.005;
const day = 86_400_000;
const start = Date.UTC(2026, 0, 5, 14);

type Kit = Record<TrueField['kind'], Device>;
const newKit = (id: string, random: Random): Kit => ({
  manometer: newDevice(`${id}/manometer`, accuracies.manometer, steps.manometer, random),
  fan: newDevice(`${id}/fan`, accuracies.fan, steps.fan, random),
  flow: newDevice(`${id}/flow`, accuracies.flow, steps.flow, random),
});

const mapKit = (kit: Kit, of: (device: Device) => Device): Kit => ({
  manometer: of(kit.manometer),
  fan: of(kit.fan),
  flow: of(kit.flow),
});

const stepOf = ({ item, kind }: TrueField) => (item.endsWith('static') ? 0.001 : kind === 'flow' ? 1 : 0.1);

/** What the installer signs for: his own instrument, his rounding, and now and then a kinder figure than he read. */
function report(field: TrueField, kit: Kit, kinder: number, random: Random): number | null {
  if (field.reportedStep === null) return null;
  const favour = field.limit?.inside === 'above' ? 1 + kinder : 1 - kinder;
  const shown = read(field.truth * favour, kit[field.kind], random, field.reportedStep);
  return Math.max(field.reportedStep, shown);
}

const hex = (random: Random) => Array.from({ length: 64 }, () => random.below(16).toString(16)).join('');

/**
 * How a company differs from one whose raters, houses and installers are all mixed: what honest readings may be unlike
 * others' for. Written down before any test was tried on it, a scenario of our own.
 */
export interface Circumstances {
  /** share of a rater's houses that are by three installers of his own area */
  ownInstallers: number;
  /** the first installer makes up his figures in so large a share of his houses */
  inventedFigures: number;
  /** houses of a rater are built by so many plans, whose houses differ by 6 %; 0: each is its own */
  plans: number;
  /** instruments drift over the year by up to so many times their stated accuracy */
  drift: number;
  /** so many raters have a set of instruments between them */
  ratersToAKit: number;
}
export const mixed: Circumstances = {
  ...{ ownInstallers: 0, inventedFigures: 0, plans: 0, drift: 0, ratersToAKit: 1 },
};
export const hard: Circumstances = {
  ...{ ownInstallers: 0.7, inventedFigures: 1 / 3, plans: 8, drift: 1, ratersToAKit: 2 },
};
const likeAPlan = 0.06;

interface Setting {
  installers: { id: string; kit: Kit }[];
  random: Random;
  houses: number;
  kit: Kit;
  number: number;
  given: Circumstances;
}

/** The houses of a rater: each its own, or of a few plans. */
function building(
  { plans }: Circumstances,
  random: Random,
): () => { plan: string | null; fields: TrueField[] } {
  if (plans === 0) return () => ({ plan: null, fields: newHouse(random) });
  const drawn = Array.from({ length: plans }, () => newHouse(random));
  return () => {
    const plan = random.below(plans);
    const fields = drawn[plan]!.map((field) => ({
      ...field,
      truth: field.truth * random.normal(1, likeAPlan),
    }));
    return { plan: String(plan), fields };
  };
}

const drifted = (device: Device, by: number): Device => ({
  ...device,
  gain: device.gain + by * device.accuracy,
});

function raterYear(raterId: string, kind: Kind, setting: Setting): RaterYear {
  const { installers, random, houses, given, number } = setting;
  const build = building(given, random);
  const drift = given.drift === 0 ? 0 : random.between(-given.drift, given.drift);
  const figures: Figure[] = [];
  const photos: Photo[] = [];
  const stops = new Map<string, Stop>();
  const written = new Map<string, number>();
  const byItem = new Map<string, number[]>();
  const home = { latitude: 41 + random.normal(0, 0.1), longitude: -91 + random.normal(0, 0.1) };
  let at = start;
  for (let n = 0; n < houses; n += 1) {
    const houseId = `${raterId}/${n}`;
    stops.set(houseId, {
      houseId,
      latitude: home.latitude + random.normal(0, 0.12),
      longitude: home.longitude + random.normal(0, 0.12),
    });
    const second = n % 2 === 1;
    const late = random.chance(slip);
    if (!second) at = start + Math.floor((n / houses) * 360) * day;
    else at += (kind.minutesBetween ?? random.between(40, 90)) * 60_000;
    // Somebody enters a house late, on the way to the next: the clock of the device then tells another story.
    if (late && second) at -= 35 * 60_000;
    const from = at;
    const near = given.ownInstallers > 0 && random.chance(given.ownInstallers);
    const which = near ? (number * 3 + random.below(3)) % installers.length : random.below(installers.length);
    const installer = installers[which]!;
    const invents = which === 0 && given.inventedFigures > 0 && random.chance(given.inventedFigures);
    const elsewhere = invents ? newHouse(random) : null;
    const by = (drift * n) / houses;
    const kit = by === 0 ? setting.kit : mapKit(setting.kit, (device) => drifted(device, by));
    const kinder = random.chance(0.1) ? 0.08 : 0;
    const mood = random.next();
    const { plan, fields } = build();
    for (const [place, field] of fields.entries()) {
      at += random.between(3, 9) * 60_000;
      const told = elsewhere ? { ...field, truth: elsewhere[place]!.truth } : field;
      const reported = report(told, installer.kit, kinder, random);
      const limit =
        field.limitOfReported !== null && reported !== null
          ? { value: reported * field.limitOfReported, inside: 'below' as const }
          : field.limit;
      const key = `${field.item}/${field.place}`;
      const step = stepOf(field);
      const earlier = byItem.get(field.item) ?? [];
      const before = written.get(key) ?? null;
      const device = kit[field.kind];
      let value = kind.value({ field, reported, limit, device, step, before, earlier, mood, random });
      const finer = random.chance(slip + (kind.finer ?? 0));
      if (finer) value += step * 0.3;
      earlier.push(value);
      byItem.set(field.item, earlier);
      written.set(key, value);
      // What a fan showed is worked out from what was written; the same flow comes back as the same number.
      const shown =
        field.kind === 'fan' && value !== before
          ? fanPressure(value, 0, random)
          : field.kind === 'fan'
            ? null
            : value;
      const onDisplay = shown ?? lastShown(figures, field);
      figures.push({
        ...{ readingId: `${houseId}/${key}`, houseId, raterId, instrumentId: device.id },
        ...{ item: field.item, place: field.place, at, value, reported, limit },
        plan: plan && `${raterId} ${plan}`,
        uncertainty: (value * device.accuracy) / Math.sqrt(3),
        installerId: installer.id,
        shown: [{ field: field.item, value: onDisplay, step, setPoint: false }],
        readAgain: false,
        doubts: finer ? ['finer-than-display'] : [],
      });
    }
    for (let i = 0; i < 3; i += 1) {
      const old = random.chance(kind.oldPhotos ?? 0) ? photos[random.below(photos.length)] : undefined;
      photos.push({
        ...{ id: `${houseId}/photo/${i}`, houseId, raterId, visit: { from, to: at } },
        addedAt: at + i,
        takenAt: random.chance(slip) ? null : random.between(from, at),
        hash: old?.hash ?? hex(random),
      });
    }
  }
  return { raterId, figures, stops, photos };
}

function lastShown(figures: readonly Figure[], { item, place }: TrueField): number {
  for (let i = figures.length - 1; i >= 0; i -= 1)
    if (figures[i]!.item === item && figures[i]!.place === place)
      return toStep(figures[i]!.shown[0]!.value, 0.1);
  return 0;
}

/** A company's raters over a year, the first of them of a kind, with so many houses each. Seeded. */
export function company(
  seed: number,
  raters: number,
  houses: number,
  { first = honestKind, given = mixed }: { first?: Kind | undefined; given?: Circumstances } = {},
): RaterYear[] {
  const random = new Random(seed);
  const installers = Array.from({ length: 12 }, (_, i) => ({
    id: `installer-${i}`,
    kit: newKit(`installer-${i}`, random),
  }));
  let kit: Kit;
  return Array.from({ length: raters }, (_, number) => {
    const raterId = `rater-${number}`;
    if (number % given.ratersToAKit === 0) kit = newKit(raterId, random);
    return raterYear(raterId, number === 0 ? first : honestKind, {
      ...{ installers, random, houses, kit, number, given },
    });
  });
}

/** What had been handed in by a share of the year. */
export const until = (share: number, raters: readonly RaterYear[]): RaterYear[] => {
  const end = start + share * 365 * day;
  return raters.map((rater) => ({
    ...rater,
    figures: rater.figures.filter(({ at }) => at <= end),
    photos: rater.photos.filter(({ visit }) => (visit?.to ?? 0) <= end),
  }));
};
