import { Panel } from '../../components/page/index.ts';

/** What the chain is good for and what not, without promising too much. */
export function WhatItShows() {
  return (
    <Panel title="What this shows, and what not">
      <div className="stack">
        <p>
          The log is tamper-evident: it does not keep anybody with all rights over the database from changing
          it, it lets others see that it was changed.
        </p>
        <ul>
          <li>
            A record that was changed, taken out, put between or moved is found by checking the log alone, and
            the check says which is the first.
          </li>
          <li>
            Records cut off at the end, or a log written anew as a whole, are found only with a head that
            somebody kept elsewhere. Save or print it, or have it sent each day to somebody outside the
            company, as to the auditor.
          </li>
          <li>
            It does not show whether what was logged was true, and nothing about what was never logged.
            Between two kept heads the newer records are protected by nothing outside.
          </li>
        </ul>
        <p>
          To check: <span className="code">npm run verify-log</span> on the server, or with the saved files{' '}
          <span className="code">npm run verify-log -- --file event-log.jsonl --head log-head.json</span>. How
          the hashes are made is written in docs/security.md, so that anybody can check without this program.
        </p>
      </div>
    </Panel>
  );
}
