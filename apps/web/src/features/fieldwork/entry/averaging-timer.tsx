import { Button, Group } from '@mantine/core';
import { useEffect, useState } from 'react';
import { timedBy, type Draft } from './draft.ts';

const lengths = [10, 30, 60] as const;

interface Props {
  /** the field that is averaged; empty for all of a form */
  path: string;
  draft: Draft;
  onChange(changes: Pick<Draft, 'timer' | 'timed'>): void;
}

const timerFrom = (path: string, seconds: number): Draft['timer'] => ({
  ...{ path, seconds },
  until: Date.now() + seconds * 1000,
});

/** A screen that goes dark would hide the seconds; where the browser cannot keep it lit, it goes dark. */
function useLitScreen(wanted: boolean) {
  useEffect(() => {
    if (!wanted) return;
    const lit = navigator.wakeLock?.request('screen').catch(() => null);
    return () => void lit?.then((lock) => lock?.release());
  }, [wanted]);
}

/**
 * Counts the seconds over which a reading is averaged, so that nobody holds a watch on a ladder. It is part of what
 * is typed: it goes on over a reload, and what was timed is kept with the reading.
 */
export function AveragingTimer({ path, draft, onChange }: Props) {
  const { timer, timed } = draft;
  const [now, setNow] = useState(Date.now);
  const [ended, setEnded] = useState(false);
  useLitScreen(timer !== null);
  useEffect(() => {
    if (timer === null) return;
    const tick = () => {
      const time = Date.now();
      setNow(time);
      if (time < timer.until) return;
      onChange({ timer: null, timed: timedBy({ timer, timed }, time) });
      setEnded(true);
      // Felt through a glove; a phone without it shows the words.
      navigator.vibrate?.([200, 100, 200]);
    };
    const ticking = setInterval(tick, 200);
    return () => clearInterval(ticking);
  });

  const begin = (seconds: number) => {
    const { [path]: _, ...others } = timed;
    setEnded(false);
    onChange({ timer: timerFrom(path, seconds), timed: others });
  };
  const kept = timed[path];
  // The clock was looked at last some time before this timer began.
  const left = timer && Math.min(timer.seconds, Math.max(0, Math.ceil((timer.until - now) / 1000)));
  return (
    <div className="averaging" role="group" aria-label="Time of averaging">
      {timer === null ? (
        <>
          <p className="soft small">Average over</p>
          <Group gap="xs" grow>
            {lengths.map((seconds) => (
              <Button
                key={seconds}
                size="lg"
                variant="default"
                aria-label={`Average over ${seconds} seconds`}
                onClick={() => begin(seconds)}
              >
                {seconds} s
              </Button>
            ))}
          </Group>
        </>
      ) : (
        <Button size="xl" fullWidth variant="default" onClick={() => onChange({ timer: null, timed })}>
          <span role="timer">{left} s</span>&nbsp;– stop
        </Button>
      )}
      {timer === null && kept !== undefined && (
        <p role="status">
          {ended ? 'The time is over: enter the average.' : ''} Averaged over {kept} s; it is kept with the
          reading.
        </p>
      )}
    </div>
  );
}
