import type { Stop } from '../figures.ts';

/** Mean radius of the Earth, km (from memory). */
const radius = 6371.0;

/**
 * Distance over the ground in km between two places given in degrees: haversine formula on a sphere (from memory).
 * 0 when either place is not known. Never throws.
 */
export function greatCircle(a: Stop | undefined, b: Stop | undefined): number {
  if (!a || !b) return 0;
  if (a.latitude === null || a.longitude === null || b.latitude === null || b.longitude === null) return 0;
  const rad = Math.PI / 180;
  const half = (from: number, to: number) => Math.sin(((to - from) * rad) / 2) ** 2;
  const part =
    half(a.latitude, b.latitude) +
    Math.cos(a.latitude * rad) * Math.cos(b.latitude * rad) * half(a.longitude, b.longitude);
  return 2 * radius * Math.asin(Math.min(1, Math.sqrt(part)));
}
