import type { ItemVerdict } from '@countercheck/rules';
import { useState } from 'react';
import type { ItemGroup as Group } from './groups.ts';
import { ItemCard } from './item-card.tsx';
import { StatusCounts } from './status-counts.tsx';
import { verdictKey } from './verdicts.ts';

interface Props {
  group: Group<ItemVerdict>;
  /** while there is work to do only the work is unfolded */
  folded: boolean;
  opened: readonly string[];
  onToggle(item: string, open: boolean): void;
}

/** The items of one set-up: folded to how they stand, opened to a line for each. */
export function ItemGroup({ group, folded, opened, onToggle }: Props) {
  const { title, rig, verdicts } = group;
  const [open, setOpen] = useState(!folded || verdicts.some((each) => opened.includes(verdictKey(each))));
  return (
    <details
      className="item-group"
      aria-label={title}
      open={open}
      onToggle={(event) => {
        if (event.target === event.currentTarget) setOpen(event.currentTarget.open);
      }}
    >
      <summary>
        <h2 className="opens">{title}</h2>
        <StatusCounts verdicts={verdicts} some />
        <span className="soft small">{rig}</span>
      </summary>
      {open &&
        verdicts.map((verdict) => {
          const key = verdictKey(verdict);
          return (
            <ItemCard
              key={key}
              verdict={verdict}
              startsOpen={opened.includes(key)}
              onToggle={(now) => onToggle(key, now)}
            />
          );
        })}
    </details>
  );
}
