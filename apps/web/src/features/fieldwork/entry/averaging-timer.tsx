import { Button, Group } from '@mantine/core';
import { useEffect, useState } from 'react';

const lengths = [10, 30, 60] as const;

/** Counts the seconds over which a reading is averaged, so that nobody holds a watch on a ladder. */
export function AveragingTimer() {
  const [running, setRunning] = useState<number | null>(null);
  const [left, setLeft] = useState(0);
  const [done, setDone] = useState(false);
  useEffect(() => {
    if (running === null) return;
    const until = Date.now() + running * 1000;
    const timer = setInterval(() => {
      const ms = until - Date.now();
      setLeft(Math.max(0, Math.ceil(ms / 1000)));
      if (ms > 0) return;
      setRunning(null);
      setDone(true);
      // Felt through a glove; a phone without it shows the words.
      navigator.vibrate?.([200, 100, 200]);
    }, 200);
    return () => clearInterval(timer);
  }, [running]);

  const begin = (seconds: number) => {
    setDone(false);
    setLeft(seconds);
    setRunning(seconds);
  };
  return (
    <div className="averaging" role="group" aria-label="Time of averaging">
      {running === null ? (
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
        <Button size="xl" fullWidth variant="default" onClick={() => setRunning(null)}>
          <span role="timer">{left} s</span>&nbsp;– stop
        </Button>
      )}
      {done && <p role="status">The time is over: enter the average.</p>}
    </div>
  );
}
