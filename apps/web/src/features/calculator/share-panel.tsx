import { Button, Group } from '@mantine/core';
import { IconLink, IconPrinter } from '@tabler/icons-react';
import { useState } from 'react';
import { CopyText } from '../../components/fields/index.ts';
import { Panel } from '../../components/page/index.ts';
import type { CalculatorState } from './state.ts';

/** The address that opens this page with the same inputs. It holds them itself; nothing is kept on the server. */
export function SharePanel({ state }: { state: CalculatorState }) {
  const [link, setLink] = useState<{ url: string; of: CalculatorState } | null>(null);
  const make = async () => {
    const { packState } = await import('./share-link.ts');
    const url = new URL(location.href);
    url.hash = await packState(state);
    setLink({ url: url.href, of: state });
  };
  return (
    <div className="no-print">
      <Panel title="Share and print">
        <div className="stack">
          <p className="soft">
            The link carries everything typed here and opens for anybody of the company. Nothing is saved.
          </p>
          <Group gap="xs">
            <Button
              variant="default"
              leftSection={<IconLink size={18} aria-hidden="true" />}
              onClick={() => void make()}
            >
              Make a link
            </Button>
            <Button
              variant="default"
              leftSection={<IconPrinter size={18} aria-hidden="true" />}
              onClick={() => print()}
            >
              Print
            </Button>
          </Group>
          {link && <CopyText label="Link" text={link.url} />}
          {link && link.of !== state && (
            <p className="soft" role="status">
              The inputs have changed since; make the link again to carry them.
            </p>
          )}
        </div>
      </Panel>
    </div>
  );
}
