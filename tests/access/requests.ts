import { randomUUID } from 'node:crypto';
import type { ErrorCode } from '@countercheck/contracts';
import { figures, partsBody } from '../support/fixture.ts';
import type { Records } from './records.ts';

export interface Asked {
  params?: Record<string, string>;
  body?: object;
  query?: Record<string, string>;
  /** fields sent as a form together with a photo */
  form?: Record<string, string>;
  /** a piece of a file, from its beginning */
  bytes?: Buffer;
  /** refusals that come after admission, from the deed itself */
  after?: ErrorCode[];
}
type Ask = (records: Records) => Asked | Promise<Asked>;

const fresh = (word: string) => `${word} ${randomUUID().slice(0, 8)}`;
const mail = () => `${randomUUID()}@weir.example`;
const nothing: Ask = () => ({});
const id = (value: string, more: Asked = {}): Asked => ({ params: { id: value }, ...more });
const houseParts = () => ({ ...figures, parts: partsBody() });
const times = (hours: number) => ({
  startsAt: new Date(Date.now() + hours * 3_600_000).toISOString(),
  endsAt: new Date(Date.now() + (hours + 1) * 3_600_000).toISOString(),
});
const csv = 'lot,address,community,plan,climate_zone,floor_area_ft2,volume_ft3,bedrooms\n';
const wrongPassword = 'not the password at all';
let hour = 5_000;
let day = 0;

const session: Record<string, Ask> = {
  signIn: () => ({ body: { email: mail(), password: wrongPassword }, after: ['wrong-credentials'] }),
  secondFactor: () => ({ body: { code: '000000' }, after: ['wrong-second-factor'] }),
  me: nothing,
  signOut: nothing,
  changeMe: () => ({ body: { unitSystem: 'us' } }),
  changePassword: () => ({
    body: { current: wrongPassword, next: wrongPassword },
    after: ['wrong-credentials'],
  }),
  beginSecondFactor: () => ({ body: { password: wrongPassword }, after: ['wrong-credentials'] }),
  confirmSecondFactor: () => ({ body: { code: '000000' }, after: ['wrong-second-factor'] }),
  removeSecondFactor: () => ({
    body: { password: wrongPassword, code: '000000' },
    after: ['wrong-credentials'],
  }),
  askReset: () => ({ body: { email: mail() } }),
  accessLink: async (r) => ({ params: { token: await r.accessToken() } }),
  useAccessLink: async (r) => ({
    params: { token: await r.accessToken() },
    body: { password: 'password' },
    after: ['weak-password'],
  }),
};

const administration: Record<string, Ask> = {
  company: nothing,
  changeCompany: () => ({ body: { installerLinkDays: 20 } }),
  users: nothing,
  invite: () => ({ body: { name: 'New', email: mail(), role: 'office' } }),
  changeUser: (r) => id(r.spare.id, { body: { name: 'Spare' } }),
  inviteAgain: (r) => id(r.spare.id),
  endSessions: (r) => id(r.spare.id),
  resetSecondFactor: (r) => id(r.spare.id),
  mail: nothing,
  events: nothing,
};

const builders: Record<string, Ask> = {
  list: nothing,
  show: (r) => id(r.company.builder.id),
  register: () => ({ body: { name: fresh('Builder') } }),
  change: (r) => id(r.company.builder.id, { body: { note: 'x' } }),
  addContact: (r) => id(r.company.builder.id, { body: { name: 'New' } }),
  changeContact: async (r) => id((await r.contact()).id, { body: { duty: 'x' } }),
  removeContact: async (r) => id((await r.contact()).id),
  addCommunity: (r) => id(r.company.builder.id, { body: { name: fresh('Field'), climateZone: '4A' } }),
  changeCommunity: (r) => id(r.company.builder.communityId, { body: { jurisdiction: 'x' } }),
  addPlan: (r) => id(r.company.builder.id, { body: { name: fresh('Plan'), ...houseParts() } }),
  changePlan: (r) => id(r.company.builder.planId, { body: { bedrooms: 2 } }),
};

const houses: Record<string, Ask> = {
  list: nothing,
  show: (r) => id(r.company.house.id),
  register: (r) => ({
    body: {
      ...{ communityId: r.company.builder.communityId, address: fresh('Lane'), lot: fresh('L') },
      ...{ climateZone: '4A', ...houseParts() },
    },
  }),
  change: (r) =>
    id(r.company.house.id, {
      body: { note: 'x', expectedUpdatedAt: new Date().toISOString() },
      after: ['conflict'],
    }),
  imports: nothing,
  previewImport: (r) => ({ body: { builderId: r.company.builder.id, csv } }),
  import: (r) => ({ body: { builderId: r.company.builder.id, csv }, after: ['import-has-errors'] }),
  events: (r) => id(r.company.house.id),
};

const installers: Record<string, Ask> = {
  list: nothing,
  register: () => ({ body: { name: 'New', companyName: 'New' } }),
  change: (r) => id(r.company.installer.id, { body: { phone: '1' } }),
  links: (r) => id(r.company.house.id),
  sendLink: (r) => id(r.company.house.id, { body: { installerId: r.company.installer.id } }),
  openAgain: (r) =>
    id(r.company.house.id, {
      body: { installerId: r.company.installer.id, reason: 'x' },
      after: ['conflict'],
    }),
  revokeLink: async (r) => id((await r.link()).id),
  submissions: (r) => id(r.company.house.id),
  form: (r) => ({ params: { token: r.openLink.token } }),
  sign: (r) => ({
    params: { token: r.openLink.token },
    body: { figures: {}, signedName: 'Fitter One', expectedRevision: 0 },
    after: ['invalid-input', 'conflict'],
  }),
};

const instruments: Record<string, Ask> = {
  list: nothing,
  register: () => ({
    body: {
      ...{ kind: 'manometer', label: fresh('Gauge'), serial: randomUUID().slice(0, 12) },
      ...{ accuracyPercent: 1, accuracyAbsolute: 1 },
    },
  }),
  show: (r) => id(r.company.instruments.manometer.id),
  change: (r) => id(r.company.instruments.manometer.id, { body: { note: 'x' } }),
  calibrate: (r) => {
    const calibratedOn = new Date(Date.now() - ++day * 86_400_000).toISOString().slice(0, 10);
    const dueOn = new Date(Date.now() + 300 * 86_400_000).toISOString().slice(0, 10);
    return id(r.company.instruments.manometer.id, { body: { calibratedOn, dueOn } });
  },
};

const visits: Record<string, Ask> = {
  list: nothing,
  show: (r) => id(r.own.id),
  raters: nothing,
  book: (r) => {
    hour += 2;
    const { house, users } = r.company;
    const body = { houseId: house.id, raterId: users.rater.id, kind: 'final', ...times(hour) };
    return { body, after: ['conflict'] };
  },
  move: async (r) => id((await r.visit()).id, { body: { note: 'x' } }),
  cancel: async (r) => id((await r.visit()).id, { body: { cause: 'x' } }),
};

const fieldwork: Record<string, Ask> = {
  sheet: (r) => id(r.own.id),
  fieldPackage: nothing,
  read: (r) =>
    id(r.own.id, {
      body: {
        ...{ id: randomUUID(), test: 'duct-leakage-total', subjectId: r.company.house.systems[0]!.id },
        raw: { values: {}, choices: {}, confirmations: {}, rows: [] },
        ...{ entered: {}, takenAt: new Date().toISOString() },
      },
      // Nothing was read: the deed says what is missing.
      after: ['invalid-input'],
    }),
  submit: async (r) => id((await r.visit()).id, { body: {}, after: ['visit-not-complete', 'conflict'] }),
  notReady: async (r) => id((await r.visit()).id, { body: { cause: 'x' }, after: ['conflict'] }),
  addPhoto: (r) => id(r.own.id, { form: { id: randomUUID() } }),
  beginUpload: (r) => id(r.own.id, { body: { id: randomUUID(), size: 10, sha256: '0'.repeat(64) } }),
  showUpload: (r) => id(r.uploadId),
  sendPiece: (r) => id(r.uploadId, { bytes: Buffer.from('x') }),
  reopen: (r) => id(r.own.id, { body: { reason: 'x' }, after: ['conflict'] }),
};

const scheduling: Record<string, Ask> = {
  requests: nothing,
  request: (r) => id(r.visitRequest.id),
  ask: (r) => ({ body: { houseId: r.company.house.id, kind: 'rough' }, after: ['conflict'] }),
  changeRequest: (r) => id(r.visitRequest.id, { body: { note: 'x' }, after: ['conflict'] }),
  withdraw: async (r) => id((await r.asked('rough')).id, { body: { why: 'x' } }),
  answerReadiness: (r) => id(r.visitRequest.id, { body: { points: [{ kind: 'power', ready: true }] } }),
  readinessLinks: (r) => id(r.visitRequest.id),
  daysOff: nothing,
  enterDayOff: () => ({ body: { raterId: null, from: '2098-12-25', to: '2098-12-25', why: 'Holiday' } }),
  removeDayOff: async (r) => id((await r.dayOff()).id),
  sendReadinessLink: (r) => id(r.visitRequest.id, { body: { name: 'Superintendent' } }),
  revokeReadinessLink: async (r) => id((await r.readinessLink()).id),
  readinessForm: async (r) => ({ params: { token: (await r.readinessLink()).token } }),
  confirmReadiness: async (r) => ({
    params: { token: (await r.readinessLink()).token },
    body: { points: [{ kind: 'power', ready: true }] },
  }),
  notReady: () => ({ query: { from: '2026-01-01', to: '2026-12-31' } }),
  board: () => ({ query: { from: '2026-12-07' } }),
  tryVisit: (r) => ({
    query: {
      ...{ houseId: r.company.house.id, raterId: r.company.users.rater.id, kind: 'final' },
      ...times(5_000),
    },
  }),
  setInstruments: (r) => id(r.own.id, { body: { instrumentIds: [] }, after: ['visit-closed'] }),
  profiles: nothing,
  changeProfile: (r) =>
    id(r.company.users.otherRater.id, {
      body: {
        ...{ qualifications: [], workingHours: [], breakMinutes: 30, startsAtHome: true },
        ...{ homeLatitude: null, homeLongitude: null, instrumentIds: [] },
      },
    }),
  calendarLink: nothing,
  makeCalendarLink: nothing,
  withdrawCalendarLink: nothing,
  calendar: async (r) => ({ params: { token: await r.calendarToken() } }),
  mailPreferences: nothing,
  changeMailPreferences: () => ({ body: { muted: [] } }),
  makeMailLink: async (r) => id((await r.contact()).id),
  withdrawMailLinks: async (r) => id((await r.contact()).id),
  mailChoices: async (r) => ({ params: { token: await r.mailToken() } }),
  changeMailChoices: async (r) => ({
    params: { token: await r.mailToken() },
    body: { notify: true, muted: [] },
  }),
};

const failedItems: Record<string, Ask> = {
  list: nothing,
  show: (r) => id(r.failedItem.id),
  correct: (r) => id(r.failedItem.id, { body: { text: 'x' }, after: ['conflict'] }),
  addPhoto: (r) => id(r.failedItem.id, { form: { id: randomUUID() } }),
  askReinspection: (r) => id(r.company.house.id, { body: {}, after: ['conflict'] }),
  requests: nothing,
};

const failedBoard: Record<string, Ask> = {
  ...{ groups: nothing, firstTime: nothing, repeats: nothing, waiting: nothing, export: nothing },
};

const review: Record<string, Ask> = {
  queue: nothing,
  file: (r) => id(r.company.house.id),
  reviews: (r) => id(r.company.house.id),
  giveBack: (r) =>
    id(r.company.house.id, {
      body: { findings: [{ severity: 'minor', text: 'x' }] },
      after: ['conflict'],
    }),
  answer: (r) => id(r.finding.id, { body: { answer: 'x' } }),
  sendBack: (r) => id(r.company.house.id, { body: {}, after: ['conflict'] }),
  release: (r) => id(r.company.house.id, { body: {}, after: ['conflict', 'not-releasable'] }),
  openAgain: (r) => id(r.sealedToOpen.houseId, { body: { reason: 'x' }, after: ['conflict'] }),
  sealed: (r) => id(r.sealed.releaseId),
  result: (r) => id(r.sealed.houseId),
};

const eventLog: Record<string, Ask> = {
  head: nothing,
  records: nothing,
  proof: (r) => id(r.sealed.releaseId),
};

const planning: Record<string, Ask> = {
  list: nothing,
  ask: (r) => ({
    body: {
      ...{ from: '2100-01-04', to: '2100-01-08', raterIds: [r.company.users.rater.id] },
      ...{ requestIds: [], seconds: 1 },
    },
  }),
  show: (r) => id(r.planId),
  cancel: (r) => id(r.planId, { after: ['conflict'] }),
  // Accepting a time that is over is no fault of the request; the refusal stands beside the proposal.
  accept: (r) => id(r.planId, { body: { stopIds: [r.stopId] }, after: ['conflict'] }),
  reject: (r) => id(r.planId, { body: { stopIds: [r.stopId] }, after: ['conflict'] }),
  settings: nothing,
  changeSettings: () => ({
    body: { officeLatitude: 41, officeLongitude: -91, circuity: 1.3, speed: 40, routingUrl: null },
  }),
};

const reviewed: Record<string, Ask> = {
  list: nothing,
  order: (r) => ({ body: { houseId: r.company.house.id, dueOn: '2026-12-01' }, after: ['conflict'] }),
  show: (r) => id(r.reviewId),
  take: (r) => id(r.reviewId),
  putBack: (r) => id(r.reviewId, { after: ['conflict'] }),
  mark: (r) => id(r.reviewId, { body: { step: 'check:house', mark: 'ok' }, after: ['conflict'] }),
  find: (r) =>
    id(r.reviewId, {
      body: { step: 'check:house', check: 'house', severity: 'minor', text: 'x', dueOn: '2026-12-01' },
      after: ['conflict'],
    }),
  changeFinding: (r) => id(r.fileFindingId, { body: { text: 'x' }, after: ['conflict'] }),
  finish: (r) => id(r.reviewId, { body: {}, after: ['conflict', 'review-not-complete'] }),
  reopen: (r) => id(r.reviewId, { body: { reason: 'x' }, after: ['conflict'] }),
  withdraw: (r) => id(r.reviewId, { body: { reason: 'x' }, after: ['conflict'] }),
  findings: nothing,
  answer: (r) => id(r.fileFindingId, { body: { answer: 'x' }, after: ['conflict'] }),
  settle: (r) => id(r.fileFindingId, { body: {}, after: ['conflict'] }),
  appeal: (r) => id(r.fileFindingId, { body: { appeal: 'x' }, after: ['conflict'] }),
  decide: (r) =>
    id(r.fileFindingId, { body: { decision: 'upheld', reason: 'x' }, after: ['conflict', 'own-work'] }),
};

const retests: Record<string, Ask> = {
  list: nothing,
  order: (r) => ({ body: { houseId: r.company.house.id, dueOn: '2026-12-01' }, after: ['conflict'] }),
  differences: () => ({ query: { test: 'duct-leakage-total' } }),
  show: (r) => id(r.retestId),
  withdraw: (r) => id(r.retestId, { body: { reason: 'x' }, after: ['conflict'] }),
};

const correctiveActions: Record<string, Ask> = {
  list: nothing,
  open: (r) => ({
    body: {
      ...{ subject: 'builder', builderId: r.company.builder.id, cause: 'x', action: 'x' },
      ...{ cleanFilesNeeded: 3, effectivenessDueOn: '2026-12-01' },
    },
  }),
  show: (r) => id(r.correctiveId),
  change: (r) => id(r.correctiveId, { body: { cleanFilesNeeded: 4 }, after: ['conflict'] }),
  addEvidence: (r) => id(r.correctiveId, { body: { text: 'x' }, after: ['conflict'] }),
  addFile: (r) => id(r.correctiveId, { form: { text: 'x' }, after: ['conflict'] }),
  file: (r) => id(r.evidenceId),
  checkEffectiveness: (r) =>
    id(r.correctiveId, {
      body: { effective: false, note: 'x', nextCheckOn: '2026-12-24' },
      after: ['conflict'],
    }),
  close: (r) => id(r.correctiveId, { body: { reason: 'x' }, after: ['conflict'] }),
  bookingHolds: nothing,
  holds: nothing,
  // Far ahead, so that it stands in no other route's way.
  hold: (r) => ({
    body: { raterId: r.company.users.rater.id, from: '2099-01-01T00:00:00Z', reason: 'x' },
  }),
  lift: (r) => id(r.holdId, { body: { reason: 'x' }, after: ['conflict'] }),
};

const replay: Record<string, Ask> = {
  list: nothing,
  ask: (r) => ({ body: { ruleSetId: r.company.ruleSet.id, filter: {} } }),
  show: (r) => id(r.replayId),
  houses: (r) => id(r.replayId),
  cancel: (r) => id(r.replayId, { after: ['conflict'] }),
  again: (r) => id(r.replayId),
};

const recall: Record<string, Ask> = {
  list: nothing,
  begin: (r) => ({
    body: {
      ...{ instrumentId: r.company.instruments.manometer.id, from: '2026-03-01', to: '2026-03-31' },
      ...{ error: { kind: 'offset', value: 1 }, reason: 'x' },
    },
  }),
  show: (r) => id(r.recallId),
  houses: (r) => id(r.recallId),
  cancel: (r) => id(r.recallId, { after: ['conflict'] }),
  letters: (r) => id(r.recallId),
  sendLetter: (r) => id(r.letterId, { body: { subject: 'x', body: 'x' }, after: ['conflict'] }),
};

const sampling: Record<string, Ask> = {
  obligations: nothing,
  changeShare: () => ({ body: { kind: 'file-review', share: 1200, minimum: 1, source: 'Own rule' } }),
  draws: nothing,
  publishDraw: () => ({
    body: { title: 'x', purpose: 'file-review', method: 'simple', size: { count: 1 } },
  }),
  showDraw: (r) => id(r.drawId),
  countPopulation: (r) => id(r.drawId, { body: {} }),
  freezeFrame: (r) => id(r.drawId, { body: {}, after: ['draw-step'] }),
  reveal: (r) => id(r.drawId, { body: {}, after: ['draw-step'] }),
  members: (r) => id(r.drawId),
  orderWork: (r) => id(r.drawId, { body: { dueOn: '2020-01-01' }, after: ['invalid-input'] }),
  exportDraw: (r) => id(r.drawId),
  repeatHere: (r) => id(r.drawId),
};

const batches: Record<string, Ask> = {
  rules: nothing,
  list: nothing,
  open: (r) => ({
    body: {
      ...{ title: 'x', communityId: r.company.builder.communityId, trades: 'x' },
      rulesKey: 'one-in-seven',
    },
  }),
  show: (r) => id(r.batchId),
  takeResult: (r) => id(r.batchId, { body: { houseId: r.company.house.id }, after: ['batch-rule'] }),
  openSet: (r) => id(r.batchId, { body: { houseIds: [r.company.house.id] }, after: ['batch-rule'] }),
};

const signals: Record<string, Ask> = {
  runs: nothing,
  begin: () => ({ body: { from: '2026-03-01', to: '2026-03-31' } }),
  run: (r) => id(r.signalRunId),
  cancel: (r) => id(r.signalRunId, { after: ['conflict'] }),
  findings: nothing,
  finding: (r) => id(r.signalId),
  dismiss: (r) => id(r.signalId, { body: { reason: 'x' } }),
  order: (r) =>
    id(r.signalId, {
      body: { reviews: [r.company.house.id], retests: [], dueOn: '2026-12-31', reason: 'x' },
      after: ['conflict'],
    }),
  chart: (r) => ({ query: { subject: 'rater', id: r.company.users.rater.id, item: 'supply-static' } }),
};

const service: Record<string, Ask> = {
  health: nothing,
  overview: nothing,
  ruleSets: nothing,
  ruleSet: (r) => id(r.company.ruleSet.id),
  offerRuleSet: (r) => id(r.company.ruleSet.id, { body: { offered: true } }),
  photo: (r) => id(r.photo.id),
  thumbnail: (r) => id(r.photo.id),
};

/** How each route is asked so that whoever may, gets as far as the deed. */
export const requests: Record<string, Record<string, Ask>> = {
  ...{ session, administration, builders, houses, installers, instruments, visits, fieldwork },
  ...{ failedItems, failedBoard, review, eventLog, replay, recall, sampling, batches, service },
  ...{ scheduling, signals, planning },
  ...{ fileReviews: reviewed, retests, correctiveActions },
};
