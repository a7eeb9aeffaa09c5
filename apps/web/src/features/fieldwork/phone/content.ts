import type { NotReadyBody, ReadingBody, SubmissionBody } from '@countercheck/contracts';

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
  | { kind: 'reading'; visitId: string; place: string; body: ReadingBody }
  | { kind: 'photo'; visitId: string; place: string; photo: PhotoContent }
  | { kind: 'submission'; visitId: string; place: string; body: SubmissionBody }
  | { kind: 'not-ready'; visitId: string; place: string; body: NotReadyBody };
