import { useState, type SubmitEvent } from 'react';
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
  const [values, setValues] = useState(initial);
  const [errors, setErrors] = useState<Record<string, string>>({});
  const [problem, setProblem] = useState<unknown>(null);
  const [sending, setSending] = useState(false);

  async function submit(event: SubmitEvent<HTMLFormElement>) {
    event.preventDefault();
    event.stopPropagation();
    const element = event.currentTarget;
    const found = errorsOf(schema, values);
    setErrors(found);
    setProblem(null);
    if (Object.keys(found).length > 0) {
      focusFirstBad(element);
      return;
    }
    setSending(true);
    try {
      await send(values);
    } catch (error) {
      setErrors(fieldProblems(error));
      setProblem(error);
      focusFirstBad(element);
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

  const onSubmit = (event: SubmitEvent<HTMLFormElement>) => void submit(event);
  return { field, problem, sending, onSubmit };
}
