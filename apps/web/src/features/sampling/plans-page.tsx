import { Page } from '../../components/page/index.ts';
import { AllClearPanel } from './plans/all-clear-panel.tsx';
import { DetectionPanel } from './plans/detection-panel.tsx';
import { LotPanel } from './plans/lot-panel.tsx';
import { SequentialPanel } from './plans/sequential-panel.tsx';

/** How many to look at, and what one may say afterwards. Worked out on the page; nothing is saved. */
export default function PlansPage() {
  return (
    <Page
      title="Sample plans"
      lead="How many files to look at, and what a sample lets one say. Worked out here; nothing is saved."
    >
      <div className="columns">
        <DetectionPanel />
        <AllClearPanel />
      </div>
      <SequentialPanel />
      <LotPanel />
    </Page>
  );
}
