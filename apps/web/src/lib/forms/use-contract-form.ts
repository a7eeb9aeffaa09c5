import { useForm, type UseFormReturnType } from '@mantine/form';
import { useState, type SubmitEvent } from 'react';
import type * as z from 'zod';
import { fieldProblems } from '../problem.ts';
import { errorsOf } from './errors-of.ts';
import { focusFirstBad } from './focus-first-bad.ts';

interface ContractFormOptions<Values, Sent> {
  /** the contract's body schema; checked on submit, so that the server's answer is no surprise */
  schema: z.ZodType;
  initialValues: Values;
  /** what is sent, when the fields are not the body itself */
  toBody?: (values: Values) => Sent;
  /** sends it; a thrown problem is shown and everything typed stays */
  send: (body: Sent) => Promise<unknown>;
}

export interface ContractForm<Values> {
  form: UseFormReturnType<Values>;
  onSubmit: (event: SubmitEvent<HTMLFormElement>) => void;
  /** the problem the server answered with, apart from the fields' own */
  problem: unknown;
  sending: boolean;
}

/** A form whose rules are those of the contract and whose server errors land beside the fields. */
export function useContractForm<Values extends Record<string, unknown>, Sent = Values>(
  options: ContractFormOptions<Values, Sent>,
): ContractForm<Values> {
  const [problem, setProblem] = useState<unknown>(null);
  const [sending, setSending] = useState(false);
  const bodyOf = (values: Values) => (options.toBody ? options.toBody(values) : (values as unknown as Sent));

  const form = useForm<Values>({
    initialValues: options.initialValues,
    clearInputErrorOnChange: true,
    validate: (values) => errorsOf(options.schema, bodyOf(values)),
  });

  async function submit(values: Values, element: HTMLFormElement) {
    setSending(true);
    setProblem(null);
    try {
      await options.send(bodyOf(values));
    } catch (error) {
      setProblem(error);
      form.setErrors(fieldProblems(error));
      focusFirstBad(element);
    } finally {
      setSending(false);
    }
  }

  function onSubmit(event: SubmitEvent<HTMLFormElement>) {
    event.preventDefault();
    // A dialog's form lies inside the page's in React's eyes; sending one must not send the other.
    event.stopPropagation();
    const element = event.currentTarget;
    if (form.validate().hasErrors) focusFirstBad(element);
    else void submit(form.getValues(), element);
  }

  return { form, onSubmit, problem, sending };
}
