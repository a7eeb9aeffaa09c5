import { installers, visits, type chartSubjects } from '@countercheck/contracts';
import { useInstrumentsFound } from '../../components/choosers/index.ts';
import { Choice, found, SearchChoice } from '../../components/fields/index.ts';
import { useRoute } from '../../lib/query.ts';

const useInstallersFound = (search: string) =>
  found(
    useRoute(installers.list, { query: { search, pageSize: 20 } }, { keepPrevious: true }),
    ({ id, name, companyName }) => ({ value: id, label: `${name}, ${companyName}` }),
  );

/** The rater, the installer or the instrument whose readings are charted. */
export function WhoseChoice({
  subject,
  value,
  onChange,
}: {
  subject: (typeof chartSubjects)[number];
  value: string | null;
  onChange: (id: string | null) => void;
}) {
  const raters = useRoute(visits.raters, {});
  if (subject === 'rater')
    return (
      <Choice
        label="Rater"
        none="Choose a rater"
        options={(raters.data ?? []).map(({ id, name }) => ({ value: id, label: name }))}
        value={value}
        onChange={onChange}
      />
    );
  return (
    <SearchChoice
      key={subject}
      label={subject === 'installer' ? 'Installer' : 'Instrument'}
      placeholder={subject === 'installer' ? 'Name or company' : 'Label or serial number'}
      useFound={subject === 'installer' ? useInstallersFound : useInstrumentsFound}
      value={value}
      onChange={onChange}
    />
  );
}
