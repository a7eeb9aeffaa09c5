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
    <table className="sides" aria-label={name}>
      <thead>
        <tr>
          <td />
          <th scope="col">{here}</th>
          <th scope="col">{there}</th>
        </tr>
      </thead>
      <tbody>
        {sides.map(({ label, here: mine, there: theirs, differs }) => (
          <tr key={label} className={differs ? 'sides-differ' : undefined}>
            <th scope="row">
              {label}
              {differs && <span className="small soft"> differs</span>}
            </th>
            <td>{mine}</td>
            <td>{theirs}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
