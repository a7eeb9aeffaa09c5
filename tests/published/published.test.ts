import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { marks, readChecks } from './run/check.ts';
import { disagreements, type Outcome, runCheck, table } from './run/run.ts';

const checks = readChecks();

describe('figures from outside', () => {
  const outcomes: Outcome[] = [];

  it.each(checks.map((check) => ({ name: `${check.source.key}: ${check.check}`, check })))(
    '$name',
    ({ check }) => {
      const outcome = runCheck(check);
      outcomes.push(outcome);
      expect(disagreements(outcome)).toBe('');
      expect(outcome.agrees).toBe(true);
    },
  );

  it('are at least 80 checks against at least 15 sources, most of them seen', () => {
    const sources = new Set(checks.map(({ source }) => source.key));
    const count = (mark: string) => checks.filter((check) => check.mark === mark).length;
    const figures = outcomes.flatMap((outcome) => outcome.figures);
    const sums = marks.map((mark) => `${count(mark)} ${mark}`).join(', ');
    console.log(
      `${table(outcomes)}\n\n${checks.length} checks, ${figures.length} figures, ${sources.size} sources: ${sums}`,
    );
    expect(checks.length).toBeGreaterThanOrEqual(80);
    expect(sources.size).toBeGreaterThanOrEqual(15);
    expect(count('seen')).toBeGreaterThan(checks.length / 2);
  });

  it('say where they were seen, and claim no address for what was not', () => {
    for (const { check, mark, source } of checks) {
      if (mark === 'seen') expect(source.address, check).toMatch(/^(https?:|github:|withheld)/);
    }
  });

  it('are listed with the sources of the project', () => {
    const listed = readFileSync(new URL('../../docs/sources.md', import.meta.url), 'utf8');
    for (const { source } of checks) expect(listed).toContain(`| ${source.key} `);
  });

  it('are each written once', () => {
    const names = checks.map(({ source, check }) => `${source.key}: ${check}`);
    expect(new Set(names).size).toBe(names.length);
  });
});
