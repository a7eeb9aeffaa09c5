import { Link } from '@tanstack/react-router';

interface HouseNameProps {
  house: { address: string; lot: string; community?: string };
  /** where its address leads; left out, it leads nowhere */
  to?: string | undefined;
}

/** A house as a list names it: its address and, smaller, its lot. */
export function HouseName({ house: { address, lot, community }, to }: HouseNameProps) {
  return (
    <span>
      {to === undefined ? address : <Link to={to}>{address}</Link>}
      <span className="small soft">
        {' '}
        lot {lot}
        {community === undefined ? '' : `, ${community}`}
      </span>
    </span>
  );
}
