interface Point {
  latitude: number;
  longitude: number;
}

export interface MapFrame {
  width: number;
  height: number;
  /** of one unit of the drawing */
  kilometresPerUnit: number;
  at(point: Point): [x: number, y: number];
}

const kilometresPerDegree = (Math.PI * 6371.0088) / 180;
const width = 640;
const margin = 36;
const smallestKm = 0.4;

/**
 * A flat drawing in which all points have room, north up, one scale both ways: degrees of longitude are as long as
 * they are at the middle. For the distances of a day's driving the error is below one part in a hundred.
 */
export function mapFrame(points: readonly Point[]): MapFrame {
  const range = (of: (point: Point) => number) => {
    const values = points.map(of);
    return [Math.min(...values), Math.max(...values)] as const;
  };
  const [south, north] = range(({ latitude }) => latitude);
  const [west, east] = range(({ longitude }) => longitude);
  const middle = { latitude: (south + north) / 2, longitude: (west + east) / 2 };
  const shrink = Math.cos((middle.latitude * Math.PI) / 180);
  const wide = Math.max(smallestKm, (east - west) * shrink * kilometresPerDegree);
  const high = Math.max(smallestKm, (north - south) * kilometresPerDegree);
  const inner = width - 2 * margin;
  const kilometresPerUnit = Math.max(wide, high) / inner;
  const height = Math.max(240, high / kilometresPerUnit + 2 * margin);
  return {
    ...{ width, height, kilometresPerUnit },
    at: ({ latitude, longitude }) => [
      round(width / 2 + ((longitude - middle.longitude) * shrink * kilometresPerDegree) / kilometresPerUnit),
      round(height / 2 - ((latitude - middle.latitude) * kilometresPerDegree) / kilometresPerUnit),
    ],
  };
}

const round = (value: number) => Math.round(value * 10) / 10;

/** The longest round distance that takes at most a quarter of the width. */
export function scaleBar(kilometresPerUnit: number, system: 'us' | 'si'): { length: number; words: string } {
  const unit = system === 'us' ? 1.609344 : 1;
  const most = (kilometresPerUnit * width) / 4 / unit;
  const power = 10 ** Math.floor(Math.log10(most));
  const distance = [5, 2, 1].map((each) => each * power).find((each) => each <= most)!;
  const words = `${Number(distance.toPrecision(1))} ${system === 'us' ? 'mi' : 'km'}`;
  return { length: round((distance * unit) / kilometresPerUnit), words };
}
