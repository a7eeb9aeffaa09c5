import { Button } from '@mantine/core';
import { reportedFigures } from '@countercheck/rules';
import {
  installers,
  type FigureOpening,
  type HouseDetail,
  type InstallerSubmission,
} from '@countercheck/contracts';
import { useState } from 'react';
import { Quantity } from '../../../components/fields/index.ts';
import { Caution, Tag } from '../../../components/marks/index.ts';
import { Moment, Panel } from '../../../components/page/index.ts';
import { Asked, Empty } from '../../../components/states/index.ts';
import { onDemand } from '../../../lib/on-demand.tsx';
import { useRoute } from '../../../lib/query.ts';
import './detail.css';

const OpenFiguresDialog = onDemand(async () => (await import('./open-figures-dialog.tsx')).OpenFiguresDialog);

/** What the installer signed, newest revision first, and when it was opened to him again. */
export function FiguresPanel({ house, opener }: { house: HouseDetail; opener: boolean }) {
  const query = useRoute(installers.submissions, { params: { id: house.id } });
  const [opening, setOpening] = useState(false);
  return (
    <Panel
      title="Installer's signed figures"
      actions={
        opener &&
        query.data?.mayOpenAgain && (
          <Button size="xs" variant="default" onClick={() => setOpening(true)}>
            Open again
          </Button>
        )
      }
    >
      <Asked query={query}>
        {({ hidden, items, openings }) => {
          if (hidden) {
            return (
              <Caution title="Hidden until you have read">
                <p>The company reads without knowing the installer's figures.</p>
              </Caution>
            );
          }
          if (items.length === 0) return <Empty title="Nothing signed yet" />;
          return (
            <>
              <Openings openings={openings} />
              {items.map((each, index) => (
                <details key={each.id} open={index === 0} className="signed">
                  <summary>
                    Revision {each.revision}, {each.signedName}, {each.installer.companyName},{' '}
                    <Moment at={each.signedAt} /> {each.frozenAt && <Tag>Read against</Tag>}
                  </summary>
                  <div className="signed-subjects">
                    <SignedFigures house={house} submission={each} />
                  </div>
                </details>
              ))}
            </>
          );
        }}
      </Asked>
      {opening && <OpenFiguresDialog house={house} onClose={() => setOpening(false)} />}
    </Panel>
  );
}

/** When and why frozen figures were opened again, newest first. */
function Openings({ openings }: { openings: FigureOpening[] }) {
  if (openings.length === 0) return null;
  return (
    <ul className="signed-openings" aria-label="Opened again">
      {openings.map(({ id, reason, openedBy, openedAt, closedAt }) => (
        <li key={id}>
          Opened again by {openedBy}, <Moment at={openedAt} />: {reason}{' '}
          {closedAt === null ? <Tag tone="good">Open for the reinspection</Tag> : <Tag>Read since</Tag>}
        </li>
      ))}
    </ul>
  );
}

/** Part by part; kinds of part share the names of figures, so the kind decides what a figure is called. */
function SignedFigures({ house, submission }: { house: HouseDetail; submission: InstallerSubmission }) {
  const parts = new Map<string, { label: string; kind: string }>([
    ...house.systems.map(({ id, label }) => [id, { label, kind: 'system' }] as const),
    ...house.rooms.map(({ id, label, kind }) => [id, { label, kind }] as const),
  ]);
  return Object.entries(submission.figures).map(([subjectId, figures]) => {
    const { label, kind } = parts.get(subjectId) ?? { label: 'Whole-house ventilation', kind: 'ventilator' };
    return (
      <section key={subjectId} aria-label={label}>
        <h3>{label}</h3>
        <dl>
          {Object.entries(figures).map(([name, value]) => {
            const known = reportedFigures.find(({ key, subject }) => key === name && subject === kind);
            return (
              <div key={name}>
                <dt className="first-upper">{known?.label ?? name}</dt>
                <dd>
                  <Quantity kind={known?.quantity ?? 'ratio'} value={value} absent="not reported" />
                </dd>
              </div>
            );
          })}
        </dl>
      </section>
    );
  });
}
