import { FileInput, Textarea } from '@mantine/core';
import { houses, importColumns, type ImportPreview } from '@countercheck/contracts';
import { useState } from 'react';
import { BuilderChoice } from '../../../components/choosers/index.ts';
import { FormBody, said } from '../../../components/feedback/index.ts';
import { Page, Panel } from '../../../components/page/index.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useListSearch } from '../../../lib/list-search.ts';
import { useAction } from '../../../lib/query.ts';
import { columnHelp, templateUrl } from './template.ts';
import { ImportsPanel } from './imports-panel.tsx';
import { PreviewPanel } from './preview-panel.tsx';

interface Checked {
  builderId: string;
  csv: string;
  preview: ImportPreview;
}

export default function ImportPage() {
  const { values } = useListSearch();
  const [checked, setChecked] = useState<Checked | null>(null);
  const preview = useAction(houses.previewImport);
  const load = useAction(houses.import, { invalidates: [houses.list, houses.imports] });
  const of = useContractForm({
    schema: houses.previewImport.body,
    initialValues: { builderId: values.builderId ?? null, csv: '' },
    send: async (body) => {
      const sent = { builderId: body.builderId ?? '', csv: body.csv };
      setChecked({ ...sent, preview: await preview.mutateAsync({ body: sent }) });
    },
  });
  const { builderId, csv } = of.form.getValues();
  const current = checked && checked.csv === csv && checked.builderId === builderId ? checked : null;

  async function loadAll({ builderId, csv }: Checked) {
    const { created } = await load.mutateAsync({ body: { builderId, csv } });
    said(`${created} houses registered`);
    of.form.setFieldValue('csv', '');
    setChecked(null);
  }

  return (
    <Page title="Load houses from a file" back={{ to: '/houses', label: 'Houses' }}>
      <div className="columns">
        <Panel title="The file">
          <FormBody of={of} action="Check the file">
            <BuilderChoice
              value={builderId}
              onChange={(id) => of.form.setFieldValue('builderId', id)}
              error={of.form.errors.builderId as string | undefined}
            />
            <FileInput
              label="CSV file"
              accept=".csv,text/csv"
              clearable
              placeholder="Choose a file"
              onChange={(file) => void file?.text().then((text) => of.form.setFieldValue('csv', text))}
            />
            <Textarea
              label="or paste the rows"
              autosize
              minRows={6}
              maxRows={14}
              spellCheck={false}
              {...of.form.getInputProps('csv')}
            />
          </FormBody>
        </Panel>
        <Panel title="Columns">
          <div className="stack">
            <p>
              The first row names the columns.{' '}
              <a href={templateUrl()} download="houses.csv">
                Take an empty file with them
              </a>
              .
            </p>
            <ul className="plain-list">
              {importColumns.map((column) => (
                <li key={column}>
                  <span className="code">{column}</span> <span className="soft">– {columnHelp[column]}</span>
                </li>
              ))}
            </ul>
          </div>
        </Panel>
      </div>
      {checked && !current && <p className="soft">The file was changed; check it again.</p>}
      {current && <PreviewPanel preview={current.preview} onLoad={() => loadAll(current)} />}
      <ImportsPanel />
    </Page>
  );
}
