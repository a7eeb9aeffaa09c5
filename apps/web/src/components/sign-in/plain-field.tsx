import { useId, type InputHTMLAttributes } from 'react';
import './sign-in.css';

interface PlainFieldProps extends Omit<InputHTMLAttributes<HTMLInputElement>, 'onChange'> {
  label: string;
  error?: string | undefined;
  hint?: string;
  onChange: (value: string) => void;
}

/** A labelled field without the component library, which nobody has to load to sign in. */
export function PlainField({ label, error, hint, onChange, ...rest }: PlainFieldProps) {
  const id = useId();
  const described = [hint ? `${id}-hint` : '', error ? `${id}-error` : ''].filter(Boolean).join(' ');
  return (
    <div className="plain-field">
      <label htmlFor={id}>{label}</label>
      {hint && <p id={`${id}-hint`}>{hint}</p>}
      <input
        {...rest}
        id={id}
        aria-invalid={error ? true : undefined}
        aria-describedby={described || undefined}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
      {error && (
        <p className="plain-error" id={`${id}-error`}>
          {error}
        </p>
      )}
    </div>
  );
}
