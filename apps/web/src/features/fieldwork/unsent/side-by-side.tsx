import type { Side } from './both-sides.ts';

interface Props {
  name: string;
  here: string;
  there: string;
  sides: readonly Side[];
}

/** Both values of each thing in one line, those that differ marked in words and not by colour alone. */
export function SideBySide({ name, here, there, sides }: Props) {
  if (sides.length === 0) return null;
  return (
    // The roles are named, since a narrow screen lays the table out as lines and would lose them.
    <table className="sides" role="table" aria-label={name}>
      <thead role="rowgroup">
        <tr role="row">
          <td role="cell" />
          <th scope="col" role="columnheader">
            {here}
          </th>
          <th scope="col" role="columnheader">
            {there}
          </th>
        </tr>
      </thead>
      <tbody role="rowgroup">
        {sides.map(({ label, here: mine, there: theirs, differs }) => (
          <tr key={label} role="row" className={differs ? 'sides-differ' : undefined}>
            <th scope="row" role="rowheader">
              {label}
              {differs && <span className="small soft"> differs</span>}
            </th>
            <td role="cell">{mine}</td>
            <td role="cell">{theirs}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
