import { LineCounter, isMap, isNode, isPair, isScalar, parseDocument, type Document, type Node } from 'yaml';
import type { LocatedProblem } from '../check/problem.ts';

/** One file of a rule-set folder: its path as people should see it in messages, and its text. */
export interface TextFile {
  path: string;
  text: string;
}

/** A parsed YAML text that can still tell on which line a field stands. */
export interface Parsed {
  file: string;
  data: unknown;
  /** YAML that cannot be read at all */
  problems: LocatedProblem[];
  /** 1-based line of a field, or of its nearest ancestor that is written down */
  lineOf(path: readonly (string | number)[]): number;
}

function offsetOf(document: Document, path: readonly (string | number)[]): number {
  for (let length = path.length; length > 0; length--) {
    const parent = document.getIn(path.slice(0, length - 1), true);
    const last = path[length - 1];
    if (isMap(parent)) {
      const pair = parent.items.find((each) => isPair(each) && isScalar(each.key) && each.key.value === last);
      const range = isScalar(pair?.key) ? pair.key.range : null;
      if (range) return range[0];
    }
    const node = document.getIn(path.slice(0, length), true);
    if (isNode(node) && (node as Node).range) return (node as Node).range![0];
  }
  return 0;
}

/** Parses one YAML text; never throws. Aliases, tags and duplicate keys are refused: a rule file is plain. */
export function parseText({ path: file, text }: TextFile): Parsed {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, uniqueKeys: true, schema: 'core' });
  const problems = [...document.errors, ...document.warnings].map((error) => ({
    file,
    line: lines.linePos(error.pos[0]).line,
    field: '',
    message: error.message.split('\n')[0]!.replace(/ at line \d+, column \d+:?$/, ''),
  }));
  const lineOf: Parsed['lineOf'] = (path) => Math.max(1, lines.linePos(offsetOf(document, path)).line);
  if (problems.length > 0) return { file, data: null, problems, lineOf };
  try {
    return { file, data: document.toJS({ maxAliasCount: 0 }), problems, lineOf };
  } catch {
    return {
      file,
      data: null,
      problems: [{ file, line: 1, field: '', message: 'aliases are not allowed' }],
      lineOf,
    };
  }
}
