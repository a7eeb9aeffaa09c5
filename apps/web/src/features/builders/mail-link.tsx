import { Button } from '@mantine/core';
import { scheduling } from '@countercheck/contracts';
import { useState } from 'react';
import { said } from '../../components/feedback/index.ts';
import { CopyText } from '../../components/fields/index.ts';
import { Problem } from '../../components/states/index.ts';
import { useAction } from '../../lib/query.ts';

/** The private links in a contact's mail: a new one to hand on, or an end to all of them. */
export function MailLink({ contactId }: { contactId: string }) {
  const params = { id: contactId };
  const [url, setUrl] = useState<string | null>(null);
  const make = useAction(scheduling.makeMailLink, { onDone: (made) => setUrl(made.url) });
  const withdraw = useAction(scheduling.withdrawMailLinks, {
    onDone: () => {
      setUrl(null);
      said('The links in letters so far no longer work');
    },
  });
  const error = make.error ?? withdraw.error;
  return (
    <div className="stack">
      <p>Letters to a contact without an account carry a private link where the contact chooses this too.</p>
      {url !== null && <CopyText label="Link, shown once" text={url} />}
      {error !== null && <Problem error={error} />}
      <div className="row">
        <Button size="xs" variant="default" loading={make.isPending} onClick={() => make.mutate({ params })}>
          Make a new link
        </Button>
        <Button
          size="xs"
          variant="default"
          color="red"
          loading={withdraw.isPending}
          onClick={() => withdraw.mutate({ params })}
        >
          Withdraw all links
        </Button>
      </div>
    </div>
  );
}
