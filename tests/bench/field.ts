import { createHash, randomUUID } from 'node:crypto';
import { performance } from 'node:perf_hooks';
import sharp from 'sharp';
import { testsOpen, type HouseFile } from '@countercheck/assessment';
import type { ReadingBody, VisitSheet } from '@countercheck/contracts';
import { appRole, ownerRole, urlFor, withClient } from '@countercheck/host/database';
import { testDefinitions, type TestKey } from '@countercheck/measurement';
import type { Scorecard } from '@countercheck/rules';
import { buildApp } from '../../apps/api/src/index.ts';
import { system } from '../../apps/api/src/kernel/actor.ts';
import type { Entry, OutboxStore } from '../../apps/web/src/features/fieldwork/outbox/entry.ts';
import { createSender } from '../../apps/web/src/features/fieldwork/outbox/sender.ts';
import type { Content } from '../../apps/web/src/features/fieldwork/phone/content.ts';
import { send } from '../../apps/web/src/features/fieldwork/phone/transport.ts';
import { faultProxy, type Fault } from '../browser/support/fault-proxy.ts';
import { signedIn, testConfig } from '../support/app.ts';
import { addHouse, smallCompany } from '../support/fixture.ts';
import { good, readingOf } from '../support/house-life.ts';
import { prepareDatabases } from '../support/prepare.ts';

/**
 * A rater's day sent at once when the network is back: houses × readings × photos, by the sender and the transport of
 * the pages, over HTTP to a running service with PostgreSQL; once over a good network and once over one that fails in
 * every fifth request. The store is in memory, so this is the network's and the service's part of the time.
 * Usage: npm run bench field [houses] [readings a house] [photos a house]
 */
const houses = Number(process.argv[2] ?? 12);
const readings = Number(process.argv[3] ?? 40);
const photos = Number(process.argv[4] ?? 30);
const MiB = 1024 * 1024;

/** Photos as phones send them after scaling, no two alike: 2,500 points wide, with the grain of a dim basement. */
async function makePhotos(count: number): Promise<Buffer[]> {
  const grain = { type: 'gaussian' as const, mean: 128, sigma: 18 };
  const base = await sharp({
    create: { width: 2500, height: 1875, channels: 3, background: '#8a8478', noise: grain },
  })
    .blur(1.6)
    .png({ compressionLevel: 1 })
    .toBuffer();
  const made: Buffer[] = [];
  for (let i = 0; i < count; i += 1)
    made.push(
      await sharp(base)
        .modulate({ brightness: 0.7 + (0.6 * i) / count })
        .jpeg({ quality: 85 })
        .toBuffer(),
    );
  return made;
}

function memoryStore(): OutboxStore<Content> & { size(): number; bytes: Map<string, ArrayBuffer> } {
  const rows = new Map<string, Entry<Content>>();
  let seq = 0;
  const inOrder = () => [...rows.values()];
  return {
    bytes: new Map(),
    size: () => rows.size,
    add: async (entry) => void rows.set(entry.id, { ...entry, seq: ++seq, attempts: 0, refusal: null }),
    all: async () => inOrder(),
    first: async (userId, lane) =>
      inOrder().find((each) => each.userId === userId && each.lane === lane) ?? null,
    claim: async (id) => {
      const row = rows.get(id);
      if (!row) return null;
      row.attempts += 1;
      return row;
    },
    done: async (id) => void rows.delete(id),
    refuse: (id, refusal) =>
      Promise.reject(new Error(`${JSON.stringify(rows.get(id)?.content).slice(0, 300)}: ${refusal.detail}`)),
    decide: async () => false,
    withdraw: async () => false,
  };
}

const [databases, stop] = await prepareDatabases({ demo: false });
try {
  const at = { user: appRole, password: databases.appPassword, database: databases.template };
  const app = await buildApp(testConfig(urlFor(databases.superuserUrl, at), { DATABASE_POOL: '6' }));
  const company = await smallCompany(app.database);
  const url = await app.listen({ port: 0, host: '127.0.0.1' });
  const network = await faultProxy(url);
  const ownerUrl = urlFor(databases.superuserUrl, {
    ...{ user: ownerRole, password: databases.ownerPassword, database: databases.template },
  });
  const rater = await signedIn(app, company.users.rater);
  const signIn = await fetch(`${url}/api/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'x-requested-with': 'countercheck' },
    body: JSON.stringify({ email: company.users.rater.email, password: 'seven lanterns over a quiet weir' }),
  });
  const cookie = signIn.headers.get('set-cookie')!.split(';')[0]!;
  const plain = globalThis.fetch;
  globalThis.fetch = (to, init) =>
    plain(typeof to === 'string' && to.startsWith('/') ? network.url + to : to, {
      ...init,
      headers: { ...(init?.headers as Record<string, string>), cookie },
    });
  const instruments = Object.values(company.instruments);
  const pictures = await makePhotos(photos);
  const sizes = pictures.map(({ length }) => length);
  console.log(
    `${houses} houses × ${readings} readings × ${photos} photos of ${Math.round(sizes.reduce((a, b) => a + b, 0) / photos / 1024)} KiB each`,
  );

  async function enterDay(round: number) {
    const store = memoryStore();
    for (let n = 0; n < houses; n += 1) {
      const house = await app.database.as(system, (db) =>
        addHouse(db, company.ruleSet.id, company.builder, { lot: `B${round}-${n}`, stage: 'booked' }),
      );
      const startsAt = new Date(Date.now() + (round * houses + n + 1) * 3_600_000);
      const { id: visitId } = await app.database.as(system, (db) =>
        db.visit.create({
          data: {
            ...{ houseId: house.id, raterId: company.users.rater.id, kind: 'final' as const },
            ...{ startsAt, endsAt: new Date(startsAt.getTime() + 3_000_000) },
          },
        }),
      );
      const sheet = (await rater.get(`/visits/${visitId}/sheet`)).json<VisitSheet>();
      const fitting = (test: TestKey) =>
        instruments.find(({ kind }) =>
          (testDefinitions[test].instrumentKinds as readonly string[]).includes(kind),
        );
      const places = testsOpen(sheet as unknown as Scorecard, sheet.file as HouseFile).filter(
        ({ test }) => !testDefinitions[test].instrumentRequired || fitting(test),
      );
      const entry = (id: string, content: Content) =>
        store.add({
          ...{ id, key: randomUUID(), userId: company.users.rater.id, lane: house.id, content },
          madeAt: new Date().toISOString(),
        });
      const newest = new Map<string, string>();
      for (let i = 0; i < Math.max(readings, photos); i += 1) {
        const { test, subjectId } = places[i % places.length]!;
        const before = newest.get(`${test}/${subjectId}`);
        const again = before ? { supersedesId: before, supersedeReason: 'Read again' } : {};
        const instrument = testDefinitions[test].instrumentRequired ? fitting(test)!.id : null;
        const body = readingOf(test, subjectId, instrument, good[test], again) as unknown as ReadingBody;
        if (i < readings) {
          newest.set(`${test}/${subjectId}`, body.id);
          await entry(body.id, { kind: 'reading', visitId, place: test, body });
        }
        if (i < photos) {
          const id = randomUUID();
          // A few bytes after the picture's end make each another file.
          const file = Buffer.concat([pictures[i]!, Buffer.from(id)]);
          store.bytes.set(id, new Uint8Array(file).buffer);
          const sha256 = createHash('sha256').update(file).digest('hex');
          const photo = { id, item: test, takenAt: body.takenAt, size: file.length, sha256 };
          await entry(id, { kind: 'photo', visitId, place: test, photo });
        }
      }
    }
    return store;
  }

  async function sendDay(round: number, name: string): Promise<void> {
    const store = await enterDay(round);
    const entered = store.size();
    let sent = 0;
    const sender = createSender<Content>({
      store,
      send: async (entry) => {
        const answer = await send(entry, async (id) => store.bytes.get(id) ?? null);
        if (answer.kind === 'done' && ++sent === entered) setTimeout(() => sender.stop(), 0);
        return answer;
      },
      userId: company.users.rater.id,
      reachable: () => true,
      onNews: () => undefined,
      clock: {
        now: Date.now,
        // The same pauses in each run, so that runs can be compared.
        random: () => 0.5,
        pause: (ms, wake) =>
          new Promise((resolve) => {
            wake(resolve);
            if (ms !== null) setTimeout(resolve, ms);
          }),
      },
    });
    const before = { ...network.bytes, asked: network.asked.length };
    const start = performance.now();
    await sender.run();
    const seconds = (performance.now() - start) / 1000;
    const up = (network.bytes.up - before.up) / MiB;
    const down = (network.bytes.down - before.down) / MiB;
    const [kept] = await withClient(ownerUrl, async (client) => {
      const { rows } = await client.query<{ readings: number; photos: number }>(
        `SELECT (SELECT count(*)::int FROM readings r JOIN houses h ON h.id = r.house_id WHERE h.lot LIKE $1) AS readings,
          (SELECT count(*)::int FROM attachments a JOIN houses h ON h.id = a.house_id WHERE h.lot LIKE $1) AS photos`,
        [`B${round}-%`],
      );
      return rows;
    });
    if (kept!.readings !== houses * readings || kept!.photos !== houses * photos)
      throw new Error(`${name}: ${JSON.stringify(kept)} is not what was entered`);
    console.log(
      `${name}: ${entered} entries in ${seconds.toFixed(1)} s (${((1000 * seconds) / entered).toFixed(0)} ms each), ${network.asked.length - before.asked} requests, ${up.toFixed(1)} MiB up, ${down.toFixed(2)} MiB down; each there once`,
    );
  }

  await sendDay(0, 'good network');
  const faults: Fault[] = ['cut', 'lose-answer', 'broken', 'double', 'slow'];
  let turn = 0;
  network.set(() => (++turn % 5 === 0 ? faults[(turn / 5) % faults.length]! : 'none'));
  await sendDay(1, 'a fault in every fifth request');
  globalThis.fetch = plain;
  await network.close();
  await app.close();
} finally {
  await stop();
}
