import { Link } from '@tanstack/react-router';
import { useMe } from '../../lib/session.ts';
import { navigationFor } from './navigation-items.ts';

/** The pages that this role works with, by what they are for. */
export function Navigation() {
  const { role } = useMe();
  return (
    <div className="navigation">
      {navigationFor(role).map((group) => (
        <section key={group.title} aria-label={group.title}>
          <p aria-hidden="true">{group.title}</p>
          <ul>
            {group.items.map(({ to, label, icon: Icon }) => (
              <li key={to}>
                <Link to={to} activeOptions={{ exact: to === '/', includeSearch: false }}>
                  <Icon size={18} aria-hidden="true" />
                  {label}
                </Link>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}
