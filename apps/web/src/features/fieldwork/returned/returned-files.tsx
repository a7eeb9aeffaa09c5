import { Link } from '@tanstack/react-router';
import { Panel } from '../../../components/page/index.ts';
import { Problem } from '../../../components/states/index.ts';
import { useReturnedFiles } from '../data/returned.ts';
import { Findings } from './findings.tsx';

/** Files that the quality manager gave back, on top of the day's own work. */
export function ReturnedFiles() {
  const { files, error } = useReturnedFiles();
  if (error) return <Problem error={error} />;
  if (files.length === 0) return null;
  return (
    <Panel title={`Returned files (${files.length})`}>
      <div className="stack">
        {files.map(({ house, last }) => (
          <details key={house.id} className="fold fold-panel">
            <summary>
              <strong>{house.address}</strong>{' '}
              <span className="soft">
                {house.community.name}, lot {house.lot}
              </span>
            </summary>
            <div className="stack">
              <Link to={`/visits/${last.id}`} className="tap">
                Open the sheet
              </Link>
              <Findings house={house} />
            </div>
          </details>
        ))}
      </div>
    </Panel>
  );
}
