import { Button, FileButton, Group, Textarea } from '@mantine/core';
import { correctiveActions, type CorrectiveAction } from '@countercheck/contracts';
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { said } from '../../components/feedback/index.ts';
import { Moment, Panel } from '../../components/page/index.ts';
import { Problem } from '../../components/states/index.ts';
import { upload, urlOf } from '../../lib/client.ts';
import { keyOf, useAction } from '../../lib/query.ts';

const kindWords = (mediaType: string) => (mediaType === 'application/pdf' ? 'PDF' : 'photo');

/** Bytes as people read them. */
function sizeWords(bytes: number): string {
  const kilobytes = Math.max(1, Math.round(bytes / 1024));
  return kilobytes < 1024 ? `${kilobytes} kB` : `${(bytes / 1024 / 1024).toFixed(1)} MB`;
}

/** What shows that the action was taken: words, photos and PDFs. */
export function EvidencePanel({ action }: { action: CorrectiveAction }) {
  return (
    <Panel title={`Evidence (${action.evidence.length})`}>
      <div className="stack">
        {action.evidence.length === 0 && <p className="soft">None yet.</p>}
        <ul className="plain-list stack">
          {action.evidence.map((each) => (
            <li key={each.id}>
              {each.text}
              <span className="small soft">
                {' '}
                {each.addedBy}, <Moment at={each.addedAt} />
              </span>
              {each.file && (
                <>
                  {' '}
                  <a
                    href={urlOf(correctiveActions.file, { params: { id: each.id } })}
                    target="_blank"
                    rel="noreferrer"
                  >
                    {each.file.name}
                  </a>
                  <span className="small soft">
                    {' '}
                    ({kindWords(each.file.mediaType)}, {sizeWords(each.file.size)})
                  </span>
                </>
              )}
            </li>
          ))}
        </ul>
        {action.state === 'open' && <AddEvidence id={action.id} />}
      </div>
    </Panel>
  );
}

function AddEvidence({ id }: { id: string }) {
  const client = useQueryClient();
  const [text, setText] = useState('');
  const [problem, setProblem] = useState<unknown>(null);
  const add = useAction(correctiveActions.addEvidence);
  const params = { id };

  async function keep(file: File | null) {
    setProblem(null);
    try {
      const body = { text };
      if (file) await upload(correctiveActions.addFile, { params, body }, file, file.name);
      else await add.mutateAsync({ params, body });
      await client.invalidateQueries({ queryKey: keyOf(correctiveActions.show) });
      setText('');
      said('Evidence added');
    } catch (error) {
      setProblem(error);
    }
  }

  const empty = text.trim() === '';
  return (
    <>
      <Textarea
        label="What shows that it was done"
        autosize
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
      />
      {problem !== null && <Problem error={problem} />}
      <Group gap="xs">
        <Button variant="default" disabled={empty} onClick={() => void keep(null)}>
          Add it
        </Button>
        <FileButton
          accept="image/jpeg,image/png,image/webp,application/pdf"
          onChange={(file) => void (file && keep(file))}
        >
          {(props) => (
            <Button variant="default" disabled={empty} {...props}>
              Add it with a photo or PDF
            </Button>
          )}
        </FileButton>
      </Group>
    </>
  );
}
