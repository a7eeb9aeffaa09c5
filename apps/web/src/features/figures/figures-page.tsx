import { SegmentedControl } from '@mantine/core';
import { installers, type FiguresForm } from '@countercheck/contracts';
import type { UnitSystem } from '@countercheck/measurement';
import { useState } from 'react';
import { LinkGone } from '../../components/link-gone/index.ts';
import { Caution } from '../../components/marks/index.ts';
import { FactList, Page } from '../../components/page/index.ts';
import { Loading, Problem } from '../../components/states/index.ts';
import { hasCode } from '../../lib/problem.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { UnitSystemContext } from '../../lib/units/unit-system.ts';
import { showHere } from './show-here.ts';
import { SignForm } from './sign-form.tsx';
import { SignedHistory } from './signed-history.tsx';
import { useOwnUnits } from './use-own-units.ts';
import './figures.css';

/** What an installer sees behind the personal link: one house, its figures, and a place to sign. */
export default function FiguresPage() {
  const token = useParam('token');
  const query = useRoute(installers.form, { params: { token } });
  const [system, choose] = useOwnUnits();
  if (hasCode(query.error, 'link-unknown', 'link-expired', 'link-revoked')) {
    return (
      <LinkGone
        error={query.error}
        kept="Figures that you have signed are kept, whatever becomes of the link."
      />
    );
  }
  if (query.isError && !query.data) {
    return <Problem error={query.error} retry={() => void query.refetch()} />;
  }
  if (!query.data) return <Loading what="Opening the form" />;
  return (
    <UnitSystemContext value={system}>
      <Form form={query.data} token={token} system={system} onSystem={choose} />
    </UnitSystemContext>
  );
}

interface FormProps {
  form: FiguresForm;
  token: string;
  system: UnitSystem;
  onSystem(system: UnitSystem): void;
}

function Form({ form, token, system, onSystem }: FormProps) {
  const { house, company, installer, submissions, frozen, opening } = form;
  const newest = submissions[0];
  const [correcting, setCorrecting] = useState(false);
  const showForm = !frozen && (!newest || correcting);
  return (
    <Page
      width="sheet"
      title="Figures of the finished installation"
      lead={`${company.name} asks ${installer.name}, ${installer.companyName}`}
    >
      <FactList
        facts={[
          ['House', house.address],
          ['Lot', house.lot],
          ['Community', house.community],
          ['Builder', house.builder],
          ['Link open until', showHere(form.expiresAt)],
        ]}
      />
      <div>
        <SegmentedControl
          size="md"
          aria-label="Units shown"
          value={system}
          onChange={(value) => onSystem(value as UnitSystem)}
          data={[
            { value: 'us', label: 'cfm, in. w.c.' },
            { value: 'si', label: 'L/s, Pa' },
          ]}
        />
      </div>
      {frozen && (
        <Caution title="These figures stand">
          The rater has read against them, so they can no longer be corrected here. Call {company.name} if one
          of them is wrong.
        </Caution>
      )}
      {opening && !frozen && (
        <Caution title="Open again for a reinspection">
          <p>{opening.reason}</p>
          <p>
            Sign what holds now. It counts for what is measured from here on; what you signed before stays in
            the file.
          </p>
        </Caution>
      )}
      {frozen && !newest && <p>No figures were signed for this house.</p>}
      {showForm && (
        <SignForm
          key={newest?.revision ?? 0}
          form={form}
          token={token}
          system={system}
          onDone={() => setCorrecting(false)}
          {...(newest ? { onCancel: () => setCorrecting(false) } : {})}
        />
      )}
      <SignedHistory
        form={form}
        onCorrect={!frozen && newest && !correcting ? () => setCorrecting(true) : null}
      />
    </Page>
  );
}
