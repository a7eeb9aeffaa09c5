import { Link } from '@tanstack/react-router';

export function NotFound() {
  return (
    <div className="stack" style={{ padding: '2rem' }}>
      <h1>There is no such page</h1>
      <p>
        Check the address, or go to the <Link to="/">overview</Link>.
      </p>
    </div>
  );
}
