import { StatusMark, Tag, type MarkedStatus } from '../../components/marks/index.ts';

/** A verdict of one of the two sets; a set that does not ask for the item has none. */
export function VerdictOf({ status }: { status: MarkedStatus | null }) {
  return status === null ? <Tag>Not asked for</Tag> : <StatusMark status={status} size="s" />;
}
