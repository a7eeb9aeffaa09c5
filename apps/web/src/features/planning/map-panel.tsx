import type { PlanDay } from '@countercheck/contracts';
import { useState } from 'react';
import { Choice } from '../../components/fields/index.ts';
import { Panel } from '../../components/page/index.ts';
import { showTime, showWeekday } from '../../lib/dates.ts';
import { useMe } from '../../lib/session.ts';
import { mapFrame, scaleBar } from './map-frame.ts';
import { spread } from './spread.ts';

interface MapPanelProps {
  days: readonly PlanDay[];
  unitSystem: 'us' | 'si';
}

const strokes = ['', '8 4', '2 4', '10 4 2 4', '4 4', '14 5'];
const tones = ['verdigris', 'fail', 'exempt', 'care', 'pass', 'ink'];
/** Between the middles of two marks, a little more than they are wide. */
const markApart = 26;
const toneOf = (route: number) => `var(--${tones[route % tones.length]})`;
const strokeOf = (route: number) => strokes[Math.floor(route / tones.length + route) % strokes.length];

/** Houses and routes of a day, drawn from coordinates alone; every house leads to its row in the tables. */
export function MapPanel({ days, unitSystem }: MapPanelProps) {
  const zone = useMe().company.timezone;
  const dates = [...new Set(days.map(({ date }) => date))];
  const [date, setDate] = useState(dates[0]!);
  const shown = days.filter((day) => day.date === date);
  const frame = mapFrame(
    shown.flatMap((day) => [day.start, ...day.stops.map(({ house }) => house), day.end]),
  );
  const marks = spread(
    shown.flatMap((day) => day.stops.map(({ house }) => frame.at(house))),
    markApart,
    frame.width,
    frame.height,
  );
  const firstMark = shown.map((_, route) =>
    shown.slice(0, route).reduce((count, { stops }) => count + stops.length, 0),
  );
  const bar = scaleBar(frame.kilometresPerUnit, unitSystem);
  const path = (day: PlanDay) =>
    [day.start, ...day.stops.map(({ house }) => house), day.end]
      .map((each) => frame.at(each).join())
      .join(' ');
  return (
    <Panel title="Map">
      <div className="stack">
        <Choice
          label="Day on the map"
          options={dates.map((each) => ({ value: each, label: showWeekday(each) }))}
          value={date}
          onChange={(value) => setDate(value ?? dates[0]!)}
        />
        <svg
          className="plan-map"
          viewBox={`0 0 ${frame.width} ${frame.height}`}
          role="group"
          aria-label={`Routes on ${showWeekday(date)}; the tables below say the same in words`}
        >
          {shown.map((day, route) => (
            <g key={day.rater.id}>
              <polyline
                points={path(day)}
                fill="none"
                stroke={toneOf(route)}
                strokeWidth="2"
                strokeDasharray={strokeOf(route)}
              />
              <rect
                x={frame.at(day.start)[0] - 5}
                y={frame.at(day.start)[1] - 5}
                width="10"
                height="10"
                fill={toneOf(route)}
              />
            </g>
          ))}
          {/* Above all routes, so that none runs over a number. */}
          {shown.map((day, route) => (
            <g key={day.rater.id}>
              {day.stops.map((stop, i) => {
                const [x, y] = marks[firstMark[route]! + i]!;
                const [trueX, trueY] = frame.at(stop.house);
                const words = `${i + 1}. ${stop.house.address}: ${day.rater.name}, ${showTime(stop.startsAt, zone)}`;
                return (
                  <a key={stop.id} href={`#stop-${stop.id}`} aria-label={words}>
                    <title>{words}</title>
                    <line x1={trueX} y1={trueY} x2={x} y2={y} stroke={toneOf(route)} strokeWidth="1" />
                    <circle cx={trueX} cy={trueY} r="2.5" fill={toneOf(route)} />
                    <circle cx={x} cy={y} r="12" fill="var(--sheet)" stroke={toneOf(route)} strokeWidth="2" />
                    <text x={x} y={y} dy="0.35em" textAnchor="middle">
                      {i + 1}
                    </text>
                  </a>
                );
              })}
            </g>
          ))}
          <g aria-hidden="true">
            <path
              d={`M16 ${frame.height - 18} v6 h${bar.length} v-6`}
              fill="none"
              stroke="var(--ink)"
              strokeWidth="1.5"
            />
            <text x={16} y={frame.height - 24}>
              {bar.words}
            </text>
          </g>
        </svg>
        <ul className="plan-legend">
          {shown.map((day, route) => (
            <li key={day.rater.id}>
              <svg width="36" height="10" aria-hidden="true">
                <line
                  x1="0"
                  x2="36"
                  y1="5"
                  y2="5"
                  stroke={toneOf(route)}
                  strokeWidth="3"
                  strokeDasharray={strokeOf(route)}
                />
              </svg>
              {day.rater.name}
            </li>
          ))}
        </ul>
      </div>
    </Panel>
  );
}
