import { useRef, useState, type FormEvent } from 'react';
import type * as z from 'zod';
import { errorsOf } from '../../lib/forms/errors-of.ts';
import { focusFirstBad } from '../../lib/forms/focus-first-bad.ts';
import { fieldProblems } from '../../lib/problem.ts';

/** A small form over plain fields: checked against the contract, problems beside the fields, nothing lost. */
export function usePlainForm<Values extends Record<string, string>>(
  schema: z.ZodType,
  initial: Values,
  send: (values: Values) => Promise<unknown>,
) {
  const ref = useRef<HTMLFormElement>(null);
  const [values, setValues] = useState(initial);
  const [errors, setErrors] = useState<Record<string, string>>({});
  const [problem, setProblem] = useState<unknown>(null);
  const [sending, setSending] = useState(false);

  async function submit(event: FormEvent) {
    event.preventDefault();
    const found = errorsOf(schema, values);
    setErrors(found);
    setProblem(null);
    if (Object.keys(found).length > 0) {
      focusFirstBad(ref.current);
      return;
    }
    setSending(true);
    try {
      await send(values);
    } catch (error) {
      setErrors(fieldProblems(error));
      setProblem(error);
      focusFirstBad(ref.current);
    } finally {
      setSending(false);
    }
  }

  const field = (name: keyof Values & string) => ({
    name,
    value: values[name],
    error: errors[name],
    onChange: (value: string) => {
      setValues((all) => ({ ...all, [name]: value }));
      setErrors(({ [name]: _, ...others }) => others);
    },
  });

  return { ref, field, problem, sending, onSubmit: (event: FormEvent) => void submit(event) };
}
