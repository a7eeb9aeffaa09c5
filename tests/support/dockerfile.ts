export type Instruction =
  | { kind: 'COPY'; from?: string; sources: string[]; target: string }
  | { kind: 'RUN'; command: string }
  | { kind: 'ENV'; values: Record<string, string> }
  | { kind: 'CMD'; args: string[] }
  | { kind: 'other'; line: string };

function read(line: string): Instruction {
  const [word = '', ...rest] = line.split(/\s+/);
  const after = line.slice(word.length).trim();
  switch (word) {
    case 'COPY': {
      const from = rest.find((part) => part.startsWith('--from='))?.slice('--from='.length);
      const paths = rest.filter((part) => !part.startsWith('--'));
      return {
        kind: 'COPY',
        ...(from ? { from } : {}),
        sources: paths.slice(0, -1),
        target: paths.at(-1) ?? '',
      };
    }
    case 'RUN':
      return { kind: 'RUN', command: after };
    case 'ENV':
      return {
        kind: 'ENV',
        values: Object.fromEntries(rest.map((pair) => pair.split('=', 2) as [string, string])),
      };
    case 'CMD':
      return { kind: 'CMD', args: JSON.parse(after) as string[] };
    default:
      return { kind: 'other', line };
  }
}

/** The stages of our own Dockerfile, as far as it goes: no line continuations and no heredocs. */
export function readDockerfile(text: string): Instruction[][] {
  const stages: Instruction[][] = [];
  for (const line of text.split('\n').map((raw) => raw.trim())) {
    if (line === '' || line.startsWith('#')) continue;
    if (line.startsWith('FROM ')) stages.push([]);
    stages.at(-1)?.push(read(line));
  }
  return stages;
}
