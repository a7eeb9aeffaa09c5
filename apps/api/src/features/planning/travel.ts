import * as z from 'zod';
import type { WeekPlan } from '@countercheck/contracts';
import {
  type Coordinates,
  emptyTravel,
  travelFromCoordinates,
  type TravelTable,
} from '@countercheck/planning';
import { outOfBounds } from './routing-address.ts';

const timeoutMs = 10_000;
const mostBytes = 30_000_000;
/** For parking and getting to the door, min. Common practice, no published source. */
const extraMinutes = 3;

interface TravelSettings {
  travelCircuity: number;
  /** km/h */
  travelSpeed: number;
  routingUrl: string | null;
}

export type TravelSource = NonNullable<WeekPlan['travel']>;

const tableSchema = z.array(z.array(z.number().min(0).max(1e6)));
const answerSchema = z.object({ minutes: tableSchema, kilometres: tableSchema.optional() });

/**
 * Driving between all places: from the routing service when there is one, or else from the coordinates, and
 * which of them. A service that is late, away or says something else does not hold up the plan.
 */
export async function travelBetween(
  places: readonly Coordinates[],
  { travelCircuity, travelSpeed, routingUrl }: TravelSettings,
  signal: AbortSignal,
): Promise<{ table: TravelTable; source: TravelSource }> {
  const assumed = travelFromCoordinates(places, {
    ...{ circuity: travelCircuity, kilometresPerHour: travelSpeed, extraMinutes },
  });
  const source = {
    circuity: travelCircuity,
    speed: travelSpeed,
    extraMinutes,
    service: false,
    trouble: null,
  };
  if (routingUrl === null || places.length === 0) return { table: assumed, source };
  try {
    const wrong = await outOfBounds(routingUrl);
    if (wrong) throw new Error(wrong);
    const table = await askService(routingUrl, places, assumed, signal);
    return { table, source: { ...source, service: true } };
  } catch (error) {
    signal.throwIfAborted();
    const trouble = error instanceof Error ? error.message : String(error);
    return { table: assumed, source: { ...source, trouble } };
  }
}

async function askService(
  url: string,
  places: readonly Coordinates[],
  assumed: TravelTable,
  signal: AbortSignal,
): Promise<TravelTable> {
  const late = AbortSignal.timeout(timeoutMs);
  const answer = await fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ places }),
    redirect: 'error',
    signal: AbortSignal.any([signal, late]),
  }).catch((error: unknown) => {
    throw new Error(
      late.aborted ? `it did not answer within ${timeoutMs / 1000} s.` : 'it could not be reached.',
      {
        cause: error,
      },
    );
  });
  if (!answer.ok) throw new Error(`it answered ${answer.status}.`);
  const text = await bounded(answer).catch((error: unknown) => {
    throw late.aborted ? new Error(`it did not answer within ${timeoutMs / 1000} s.`) : error;
  });
  const parsed = answerSchema.safeParse(json(text));
  const count = places.length;
  const square = (table: number[][]) => table.length === count && table.every((row) => row.length === count);
  if (!parsed.success || !square(parsed.data.minutes))
    throw new Error(`its answer is no table of ${count} by ${count} minutes.`);
  const { minutes, kilometres } = parsed.data;
  if (kilometres && !square(kilometres))
    throw new Error(`its answer is no table of ${count} by ${count} kilometres.`);
  const table = emptyTravel(count);
  minutes.flat().forEach((each, i) => (table.minutes[i] = each));
  if (kilometres) kilometres.flat().forEach((each, i) => (table.distance[i] = each));
  else table.distance.set(assumed.distance);
  return table;
}

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

async function bounded(answer: Response): Promise<string> {
  const decoder = new TextDecoder();
  let text = '';
  let read = 0;
  for await (const piece of answer.body ?? []) {
    read += (piece as Uint8Array).length;
    if (read > mostBytes) throw new Error('its answer is too long.');
    text += decoder.decode(piece as Uint8Array, { stream: true });
  }
  return text + decoder.decode();
}
