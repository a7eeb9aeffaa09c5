import { Button, type ButtonProps } from '@mantine/core';
import { Link } from '@tanstack/react-router';

interface ButtonLinkProps extends ButtonProps {
  to: string;
  search?: Record<string, string>;
}

/** Goes to another page, and looks like the main thing to do here. */
export function ButtonLink({ to, search, ...rest }: ButtonLinkProps) {
  return <Button {...rest} renderRoot={(props) => <Link to={to} search={search ?? {}} {...props} />} />;
}
