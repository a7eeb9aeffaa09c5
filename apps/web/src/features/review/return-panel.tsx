import { Button, Group, Textarea } from '@mantine/core';
import { houses, review, severities } from '@countercheck/contracts';
import { useRef, useState } from 'react';
import { Confirm, said } from '../../components/feedback/index.ts';
import { Choice, optionsOf, type Option } from '../../components/fields/index.ts';
import { Panel } from '../../components/page/index.ts';
import { errorsOf, focusFirstBad } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { toReturnBody, type DraftFinding, type ReturnDraft } from './findings-draft.ts';
import { severityWords } from '../../lib/words/work.ts';

interface Props {
  houseId: string;
  draft: ReturnDraft;
  onChange(draft: ReturnDraft): void;
  onReturned(): void;
  onAdd(): void;
  items: Option[];
}

/** The findings noted so far, and giving the file back with them. */
export function ReturnPanel({ houseId, draft, onChange, onReturned, onAdd, items }: Props) {
  const [attempted, setAttempted] = useState(false);
  const [asking, setAsking] = useState(false);
  const box = useRef<HTMLDivElement>(null);
  const giveBack = useAction(review.giveBack, {
    invalidates: [review.file, review.queue, houses.list, houses.show],
  });
  const errors = attempted ? errorsOf(review.giveBack.body, toReturnBody(draft)) : {};
  const replace = (key: string, changes: Partial<DraftFinding>) =>
    onChange({
      ...draft,
      findings: draft.findings.map((each) => (each.key === key ? { ...each, ...changes } : each)),
    });

  function ask() {
    setAttempted(true);
    if (Object.keys(errorsOf(review.giveBack.body, toReturnBody(draft))).length > 0)
      focusFirstBad(box.current);
    else setAsking(true);
  }

  return (
    <Panel title={`Findings noted (${draft.findings.length})`}>
      <div className="stack" ref={box}>
        {draft.findings.length === 0 && (
          <p className="soft">None yet. Note one beside an item above, or here for the file as a whole.</p>
        )}
        {draft.findings.map((finding, i) => (
          <fieldset key={finding.key} className="finding-fields" data-finding={finding.key}>
            <legend>Finding {i + 1}</legend>
            <Choice
              label="About"
              options={items}
              none="The file as a whole"
              value={finding.about}
              onChange={(about) => replace(finding.key, { about: about ?? '' })}
            />
            <Choice
              label="Severity"
              options={optionsOf(severityWords)}
              value={finding.severity}
              onChange={(value) =>
                replace(finding.key, { severity: severities.find((each) => each === value) ?? 'minor' })
              }
            />
            <Textarea
              className="finding-text"
              label="What was found"
              autosize
              minRows={2}
              required
              value={finding.text}
              error={errors[`findings.${i}.text`]}
              onChange={(event) => replace(finding.key, { text: event.currentTarget.value })}
            />
            <Button
              variant="default"
              aria-label={`Take out finding ${i + 1}`}
              onClick={() =>
                onChange({ ...draft, findings: draft.findings.filter(({ key }) => key !== finding.key) })
              }
            >
              Take out
            </Button>
          </fieldset>
        ))}
        {errors['findings'] && <p role="alert">{errors['findings']}</p>}
        <Textarea
          label="Note with the return"
          description="May be left out."
          autosize
          value={draft.note}
          onChange={(event) => onChange({ ...draft, note: event.currentTarget.value })}
        />
        <Group gap="xs">
          <Button variant="default" onClick={onAdd}>
            Add a finding
          </Button>
          <Button onClick={ask}>Return the file</Button>
        </Group>
      </div>
      <Confirm
        title="Return the file?"
        opened={asking}
        onClose={() => setAsking(false)}
        action="Return it"
        onConfirm={async () => {
          await giveBack.mutateAsync({ params: { id: houseId }, body: toReturnBody(draft) });
          said('The file is returned with its findings.');
          onReturned();
        }}
      >
        <p>
          The rater and the office see {draft.findings.length === 1 ? 'the finding' : 'the findings'} and
          answer before the file comes back.
        </p>
      </Confirm>
    </Panel>
  );
}
