import type { FastifyInstance } from 'fastify';
import { showBoard } from './board/board.ts';
import { assignInstruments } from './board/instruments.ts';
import { keepCalendarLinks } from './calendar/links.ts';
import { serveCalendars } from './calendar/serve.ts';
import { keepDaysOff } from './days-off.ts';
import { keepMailChoices } from './mail/choices.ts';
import { keepMailLinks } from './mail/links.ts';
import { keepMailPreferences } from './mail/preferences.ts';
import { countNotReady } from './not-ready.ts';
import { keepProfiles } from './profiles/keep.ts';
import { answerReadiness } from './readiness/answer.ts';
import { keepReadinessLinks } from './readiness/links.ts';
import { askForVisits } from './requests/ask.ts';
import { readRequests } from './requests/read.ts';

/** The scheduler's week: what is asked for, what is ready, who goes when, and who hears of it. */
export async function schedulingFeature(app: FastifyInstance): Promise<void> {
  readRequests(app);
  askForVisits(app);
  answerReadiness(app);
  keepReadinessLinks(app);
  countNotReady(app);
  showBoard(app);
  assignInstruments(app);
  keepProfiles(app);
  keepDaysOff(app);
  keepCalendarLinks(app);
  serveCalendars(app);
  keepMailPreferences(app);
  keepMailChoices(app);
  keepMailLinks(app);
}
