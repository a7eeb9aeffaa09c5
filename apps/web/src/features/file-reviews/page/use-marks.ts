import { useQueryClient } from '@tanstack/react-query';
import { fileReviews, type FileReview, type ReviewStep } from '@countercheck/contracts';
import { useRef, useState } from 'react';
import { call } from '../../../lib/client.ts';
import { keyOf } from '../../../lib/query.ts';

type Mark = NonNullable<ReviewStep['mark']>;

/**
 * Marks that show at once and are sent one after the other, so that a reviewer never waits for the wire. What the
 * server refuses is taken back and said.
 */
export function useMarks(review: FileReview) {
  const client = useQueryClient();
  const sending = useRef<Promise<unknown>>(Promise.resolve());
  const [problem, setProblem] = useState<unknown>(null);
  const params = { id: review.id };
  const key = keyOf(fileReviews.show, { params });

  function show(step: string, mark: ReviewStep['mark']) {
    client.setQueryData<FileReview>(
      key,
      (known) =>
        known && {
          ...known,
          steps: known.steps.map((each) => (each.step === step ? { ...each, mark } : each)),
        },
    );
  }

  function mark(step: ReviewStep, wanted: Mark) {
    setProblem(null);
    show(step.step, wanted);
    sending.current = sending.current.then(() =>
      call(fileReviews.mark, { params, body: { step: step.step, mark: wanted } }).catch((error: unknown) => {
        show(step.step, step.mark);
        setProblem(error);
      }),
    );
  }

  return {
    mark,
    problem,
    /** settles when everything marked has been answered */ sent: () => sending.current,
  };
}
