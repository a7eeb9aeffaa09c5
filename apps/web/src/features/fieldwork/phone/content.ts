import type { NotReadyBody, ReadingBody, SubmissionBody, VisitSheet } from '@countercheck/contracts';

/** The installer's figures as the rater had them before him: kept so that they can be laid beside newer ones. */
export type FiguresSeen = VisitSheet['file']['reported'];

/** What a photo is of, and how it is known to have arrived whole. */
export interface PhotoContent {
  id: string;
  item?: string;
  subjectId?: string;
  caption?: string;
  takenAt: string;
  size: number;
  sha256: string;
}

/** What an entry of the outbox says. */
export type Content =
  | { kind: 'reading'; visitId: string; place: string; body: ReadingBody; figures?: FiguresSeen }
  | { kind: 'photo'; visitId: string; place: string; photo: PhotoContent }
  | { kind: 'submission'; visitId: string; place: string; body: SubmissionBody; figures?: FiguresSeen }
  | { kind: 'not-ready'; visitId: string; place: string; body: NotReadyBody };
