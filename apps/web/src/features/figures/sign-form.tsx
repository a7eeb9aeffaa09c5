import { Button, Checkbox, Group, TextInput } from '@mantine/core';
import { installers, type FiguresForm } from '@countercheck/contracts';
import type { QuantityKind, UnitSystem } from '@countercheck/measurement';
import { useMemo, useRef, useState } from 'react';
import { said } from '../../components/feedback/index.ts';
import { QuantityInput } from '../../components/fields/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Problem } from '../../components/states/index.ts';
import { focusFirstBad } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { beginFigures, figureProblems, keepFigures, keptFigures } from './figures-draft.ts';

interface Props {
  form: FiguresForm;
  token: string;
  system: UnitSystem;
  onDone(): void;
  onCancel?: () => void;
}

/** The figures asked for, part by part, and the signature under them. */
export function SignForm({ form, token, system, onDone, onCancel }: Props) {
  const begun = useMemo(() => beginFigures(form), [form]);
  const [figures, setFigures] = useState(() => keptFigures(token, begun, localStorage) ?? begun);
  const [name, setName] = useState('');
  const [confirmed, setConfirmed] = useState(false);
  const [attempted, setAttempted] = useState(false);
  const box = useRef<HTMLFormElement>(null);
  const sign = useAction(installers.sign, { invalidates: [installers.form] });
  const problems = attempted ? figureProblems(form.subjects, figures, system) : {};
  const nothing = Object.values(figures).every((each) =>
    Object.values(each).every((value) => value === null),
  );

  function change(subjectId: string, figure: string, value: number | null) {
    const next = { ...figures, [subjectId]: { ...figures[subjectId], [figure]: value } };
    setFigures(next);
    keepFigures(token, next, localStorage);
  }

  async function submit() {
    setAttempted(true);
    const wrong = Object.keys(figureProblems(form.subjects, figures, system)).length > 0;
    if (wrong || nothing || name.trim() === '' || !confirmed) return focusFirstBad(box.current);
    try {
      await sign.mutateAsync({
        params: { token },
        body: { figures, signedName: name.trim(), expectedRevision: form.submissions[0]?.revision ?? 0 },
      });
    } catch {
      return focusFirstBad(box.current);
    }
    keepFigures(token, null, localStorage);
    said('Signed. The rating company has your figures.');
    onDone();
  }

  return (
    <form
      ref={box}
      noValidate
      className="stack"
      aria-label="Figures and signature"
      onSubmit={(event) => {
        event.preventDefault();
        void submit();
      }}
    >
      {form.subjects.map((subject) => (
        <Panel key={subject.id} title={subject.label}>
          <div className="figure-fields">
            {subject.figures.map((figure) => (
              <QuantityInput
                key={figure.name}
                kind={figure.quantity as QuantityKind}
                size="lg"
                label={figure.label.charAt(0).toUpperCase() + figure.label.slice(1)}
                description={[figure.help, figure.required ? '' : 'May be left out.']
                  .filter(Boolean)
                  .join(' ')}
                aria-required={figure.required}
                value={figures[subject.id]?.[figure.name] ?? null}
                error={problems[`${subject.id}.${figure.name}`]}
                onChange={(value) => change(subject.id, figure.name, value)}
              />
            ))}
          </div>
        </Panel>
      ))}
      <Panel title="Signature">
        <div className="stack">
          {attempted && nothing && <p role="alert">Enter at least one figure before you sign.</p>}
          <TextInput
            size="lg"
            label="Your full name"
            description="Typing your name signs the figures."
            autoComplete="name"
            required
            maxLength={120}
            value={name}
            error={attempted && name.trim() === '' ? 'Type your name to sign.' : undefined}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <Checkbox
            size="md"
            label="I measured these figures, or had them measured, on the finished installation."
            checked={confirmed}
            error={attempted && !confirmed ? 'Tick this to sign.' : undefined}
            onChange={(event) => setConfirmed(event.currentTarget.checked)}
          />
          {sign.error && <Problem error={sign.error} />}
          <Group gap="xs">
            <Button type="submit" size="lg" loading={sign.isPending}>
              Sign the figures
            </Button>
            {onCancel && (
              <Button
                size="lg"
                variant="default"
                onClick={() => {
                  keepFigures(token, null, localStorage);
                  onCancel();
                }}
              >
                Leave them as signed
              </Button>
            )}
          </Group>
        </div>
      </Panel>
    </form>
  );
}
