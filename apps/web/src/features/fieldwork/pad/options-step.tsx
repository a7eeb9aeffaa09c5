import { Button } from '@mantine/core';
import { IconCheck } from '@tabler/icons-react';

interface Props {
  title: string;
  help: string;
  options: { value: string; label: string; help?: string | undefined }[];
  value: string | null;
  problem: string | undefined;
  onPick(value: string): void;
}

/** A choice by keys as large as the pad's: pressing one is choosing it. */
export function OptionsStep({ title, help, options, value, problem, onPick }: Props) {
  return (
    <div role="group" aria-label={title} className="stack">
      <h3 tabIndex={-1} data-autofocus>
        {title}
      </h3>
      {help && <p className="soft">{help}</p>}
      {problem && <p className="field-problem">{problem}</p>}
      <div className="pad-options">
        {options.map((option) => (
          <Button
            key={option.value}
            size="lg"
            variant="default"
            justify="flex-start"
            aria-pressed={option.value === value}
            leftSection={option.value === value ? <IconCheck size={22} aria-hidden="true" /> : null}
            onClick={() => onPick(option.value)}
          >
            <span className="pad-option">
              {option.label}
              {option.help && <span className="small soft">{option.help}</span>}
            </span>
          </Button>
        ))}
      </div>
    </div>
  );
}
