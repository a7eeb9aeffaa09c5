import { withClient } from '@countercheck/host/database';
import type { Client } from '../support/app.ts';
import type { Endpoint } from './beside-sql.ts';

interface Busiest {
  rater: string;
  instrument: string;
  installer: string;
}

/** Whom the charts are drawn of: whoever has the most readings. */
function busiest(ownerUrl: string): Promise<Busiest> {
  return withClient(ownerUrl, async (client) => {
    const { rows } = await client.query<Busiest>(`SELECT
      (SELECT taken_by_id FROM readings GROUP BY 1 ORDER BY count(*) DESC LIMIT 1) AS rater,
      (SELECT instrument_id FROM readings WHERE test = 'supply-static' GROUP BY 1 ORDER BY count(*) DESC LIMIT 1) AS instrument,
      (SELECT installer_id FROM installer_submissions GROUP BY 1 ORDER BY count(*) DESC LIMIT 1) AS installer`);
    return rows[0]!;
  });
}

/** What a quality manager opens all day. The first five are asked most. */
export async function deskEndpoints(quality: Client, ownerUrl: string): Promise<Endpoint[]> {
  const draw = await quality.post('/draws', {
    ...{ title: 'Bench', purpose: 'file-review', method: 'simple', size: { share: 1000 } },
  });
  const { id } = draw.json<{ id: string }>();
  const { rater, instrument, installer } = await busiest(ownerUrl);
  const chart = (subject: string, of: string) =>
    quality.get(`/control-charts?subject=${subject}&id=${of}&item=supply-static`);
  return [
    ['files waiting for release', () => quality.get('/reviews/queue')],
    ['file reviews to do', () => quality.get('/file-reviews')],
    ['re-tests on order', () => quality.get('/retests')],
    ['obligations of this year', () => quality.get('/obligations')],
    ['signals of the last look', () => quality.get('/signal-findings')],
    ["a rater's chart", () => chart('rater', rater)],
    ["an instrument's chart", () => chart('instrument', instrument)],
    ["an installer's chart", () => chart('installer', installer)],
    ["a draw's population", () => quality.post(`/draws/${id}/population`, { leaveOutDone: true })],
    ['what failed, by item', () => quality.get('/failed-items/groups?by=item')],
    ['passed the first time, by rater', () => quality.get('/failed-items/first-time?by=rater')],
    ['passed the first time, by item', () => quality.get('/failed-items/first-time?by=item')],
    ['failed again and again', () => quality.get('/failed-items/repeats')],
    ['time to reinspection', () => quality.get('/failed-items/waiting')],
  ];
}
