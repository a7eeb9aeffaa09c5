import {
  keepPreviousData,
  MutationCache,
  QueryCache,
  QueryClient,
  useMutation,
  useQuery,
  useQueryClient,
} from '@tanstack/react-query';
import type { RouteContract } from '@countercheck/contracts';
import { type AnswerOf, type ArgsOf, call } from './client.ts';
import { ApiProblem, hasCode } from './problem.ts';
import { announceExpiry } from './session-expiry.ts';

/** Everything asked of one route shares the first part, so that an action can make it stale as a whole. */
export function keyOf<R extends RouteContract>(route: R, args?: ArgsOf<R>): unknown[] {
  return args === undefined ? [route.path] : [route.path, args];
}

interface RouteOptions {
  enabled?: boolean;
  /** shows the former page of a list until the next one has come */
  keepPrevious?: boolean;
  /** how often it is asked again, or by what was answered and when */
  refetchInterval?: number | ((query: { state: { data: unknown; dataUpdatedAt: number } }) => number | false);
}

/** Reads one route. */
export function useRoute<R extends RouteContract>(route: R, args: ArgsOf<R>, options: RouteOptions = {}) {
  const { keepPrevious, ...rest } = options;
  return useQuery<AnswerOf<R>>({
    queryKey: keyOf(route, args),
    queryFn: ({ signal }) => call(route, args, { signal }),
    ...(keepPrevious ? { placeholderData: keepPreviousData } : {}),
    ...rest,
  });
}

interface ActionOptions<R extends RouteContract> {
  /** routes whose answers this changes */
  invalidates?: readonly RouteContract[];
  onDone?: (answer: AnswerOf<R>) => void | Promise<void>;
}

/** Changes something through one route; on success what it changed is read again. */
export function useAction<R extends RouteContract>(route: R, options: ActionOptions<R> = {}) {
  const client = useQueryClient();
  return useMutation<AnswerOf<R>, Error, ArgsOf<R>>({
    mutationFn: (args) => call(route, args),
    onSuccess: async (answer) => {
      const stale = options.invalidates ?? [];
      await Promise.all(stale.map((each) => client.invalidateQueries({ queryKey: keyOf(each) })));
      await options.onDone?.(answer);
    },
  });
}

export function createQueryClient(): QueryClient {
  const noticeExpiry = (error: unknown) => {
    if (hasCode(error, 'sign-in-required')) announceExpiry();
  };
  return new QueryClient({
    queryCache: new QueryCache({ onError: noticeExpiry }),
    mutationCache: new MutationCache({ onError: noticeExpiry }),
    defaultOptions: {
      queries: {
        staleTime: 15_000,
        // The server has answered; asking again would give the same answer.
        retry: (failures, error) =>
          !(error instanceof ApiProblem && error.details.status < 500) && failures < 2,
      },
    },
  });
}
