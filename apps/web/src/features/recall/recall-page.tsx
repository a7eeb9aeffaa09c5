import { recall, type RecallResult, type RecallSheet } from '@countercheck/contracts';
import { instrumentErrorWords } from '@countercheck/assessment';
import { Link } from '@tanstack/react-router';
import { DateText, FactList, Page, Panel } from '../../components/page/index.ts';
import { RunPanel, whileAtWork } from '../../components/runs/index.ts';
import { Asked } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { HousesPanel } from './houses-panel.tsx';
import { LettersPanel } from './letters-panel.tsx';

export default function RecallPage() {
  const id = useParam('id');
  const query = useRoute(recall.show, { params: { id } }, { refetchInterval: whileAtWork });
  return <Asked query={query}>{(sheet) => <Sheet sheet={sheet} />}</Asked>;
}

function ResultPanel({ result }: { result: RecallResult }) {
  return (
    <Panel title="What it did">
      <div className="stack">
        <p>
          <strong>
            {result.revisit === 0
              ? 'No house has to be measured again.'
              : `${result.revisit} of ${result.houses} houses have to be measured again.`}
          </strong>
        </p>
        <FactList
          facts={[
            ['Houses with such readings', result.houses],
            ['Readings', result.readings],
            ['Readings whose error cannot be taken out', result.notCorrected],
            ['Houses with a verdict that flips', result.flipped],
            ['Passed, and would not be', result.worse],
            ['Not passed, and would be', result.better],
            ['Of these houses released', result.sealed],
          ]}
        />
        <p className="soft small">
          Nothing was changed: readings stay as they were read, and released files as they were sealed.
        </p>
      </div>
    </Panel>
  );
}

function Sheet({ sheet }: { sheet: RecallSheet }) {
  const cancel = useAction(recall.cancel, { invalidates: [recall.show, recall.list] });
  const { id, instrument, result } = sheet;
  return (
    <Page
      title={`Recall of ${instrument.label}`}
      back={{ to: '/recalls', label: 'Recalls' }}
      lead={<span className="first-upper">{instrumentErrorWords(sheet.error, instrument.kind)}</span>}
    >
      <RunPanel
        run={sheet}
        what="houses"
        onCancel={() => cancel.mutate({ params: { id } })}
        cancelling={cancel.isPending}
        error={cancel.error}
      />
      <Panel title="Recall">
        <FactList
          facts={[
            ['Instrument', <Link to={`/instruments/${instrument.id}`}>{instrument.label}</Link>],
            ['Serial number', instrument.serial],
            ['First day', <DateText date={sheet.from} />],
            ['Last day', <DateText date={sheet.to} />],
            ['How it was found', sheet.reason],
            ['Note', sheet.note],
          ]}
        />
      </Panel>
      {result && (
        <>
          <ResultPanel result={result} />
          <LettersPanel id={id} />
          <HousesPanel id={id} label={instrument.label} />
        </>
      )}
    </Page>
  );
}
