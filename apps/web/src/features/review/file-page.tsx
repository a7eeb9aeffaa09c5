import { review, type WholeFile } from '@countercheck/contracts';
import { useMemo } from 'react';
import { Caution, Stage } from '../../components/marks/index.ts';
import { Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { itemsOf, otherPhotos } from './file-parts.ts';
import { useReturnDraft } from './findings-draft.ts';
import { ItemRow } from './item-row.tsx';
import { Reason } from './reason.tsx';
import { EarlierReviews, Happened, Signatures } from './past.tsx';
import { PhotosBeside } from './photo-beside.tsx';
import { ReleasePanel } from './release-panel.tsx';
import { ReturnPanel } from './return-panel.tsx';
import './review.css';

/** A house's whole file, computed again from the raw readings, before the quality manager. */
export default function FilePage() {
  const query = useRoute(review.file, { params: { id: useParam('id') } });
  return (
    <Asked query={query} what="Computing the file again">
      {(file) => <File file={file} />}
    </Asked>
  );
}

function File({ file }: { file: WholeFile }) {
  const { house, differences } = file;
  const isQuality = useRole('quality');
  const isOffice = useRole('office');
  const mayOpen = useRole('quality', 'administrator');
  const { draft, change, clear } = useReturnDraft(house.id);
  const items = useMemo(() => itemsOf(file), [file]);
  const shown = items.filter(({ verdict }) => verdict.status !== 'not-applicable');
  const folded = items.filter(({ verdict }) => verdict.status === 'not-applicable');
  const loose = otherPhotos(file);
  const mayReturn = isQuality && house.stage === 'in_review' && !file.ownWork;
  const note = (about: string) => {
    const key = crypto.randomUUID();
    change({ ...draft, findings: [...draft.findings, { key, about, severity: 'minor', text: '' }] });
    // The new finding stands at the end of the page; typing goes on there.
    requestAnimationFrame(() =>
      document.querySelector<HTMLElement>(`[data-finding="${key}"] textarea`)?.focus(),
    );
  };
  return (
    <Page
      title={house.address}
      back={{ to: '/review', label: 'Review' }}
      lead={
        <>
          <Stage stage={house.stage} />
          <span>
            {house.community.name}, lot {house.lot} · {house.builder.name}
          </span>
          <span>Revision {house.revision}</span>
          <span>
            {house.ruleSet.title}, {house.ruleSet.version}
          </span>
        </>
      }
    >
      {differences.length > 0 ? (
        <Caution
          weight="stop"
          title={`Computed again, ${differences.length === 1 ? 'one verdict comes' : `${differences.length} verdicts come`} out differently`}
        >
          <ul>
            {differences.map(({ item, subjectId, stored, again }) => {
              const verdict = items.find(
                (each) => each.difference?.item === item && each.verdict.subjectId === subjectId,
              )?.verdict;
              return (
                <li key={`${item}/${subjectId}`}>
                  {verdict ? `${verdict.title}, ${verdict.subjectLabel}` : item.replaceAll('-', ' ')}: stored{' '}
                  {stored}, again {again}
                </li>
              );
            })}
          </ul>
        </Caution>
      ) : (
        <p>
          Computed again from the raw readings, all {file.verdicts.length} verdicts come out as they were
          stored.
        </p>
      )}
      <Panel title={`Items (${shown.length})`} flush>
        {shown.map((entry) => {
          const key = `${entry.verdict.item}/${entry.verdict.subjectId}`;
          return (
            <ItemRow
              key={key}
              entry={entry}
              startsOpen={Boolean(entry.difference) || entry.verdict.status === 'fail'}
              onFinding={mayReturn ? () => note(key) : null}
            />
          );
        })}
        {folded.length > 0 && (
          <details className="events">
            <summary>Does not apply ({folded.length})</summary>
            <ul className="holding">
              {folded.map(({ verdict }) => (
                <li key={`${verdict.item}/${verdict.subjectId}`}>
                  {verdict.title}, {verdict.subjectLabel}: <Reason verdict={verdict} />
                </li>
              ))}
            </ul>
          </details>
        )}
      </Panel>
      {loose.length > 0 && (
        <Panel title="Other photos">
          <PhotosBeside photos={loose} name="the house" />
        </Panel>
      )}
      {mayReturn && (
        <ReturnPanel
          houseId={house.id}
          draft={draft}
          onChange={change}
          onReturned={clear}
          onAdd={() => note('')}
          items={shown.map(({ verdict }) => ({
            value: `${verdict.item}/${verdict.subjectId}`,
            label: `${verdict.title}, ${verdict.subjectLabel}`,
          }))}
        />
      )}
      <ReleasePanel file={file} mayRelease={isQuality} mayOpen={mayOpen} />
      <EarlierReviews file={file} mayAnswer={isOffice} />
      <Signatures submissions={file.submissions} />
      <Happened visits={file.visits} events={file.events} />
    </Page>
  );
}
