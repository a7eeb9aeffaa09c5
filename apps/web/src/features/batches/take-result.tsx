import { Button } from '@mantine/core';
import { batches } from '@countercheck/contracts';
import { Problem } from '../../components/states/index.ts';
import { useAction } from '../../lib/query.ts';

interface TakeResultProps {
  batchId: string;
  house: { id: string; address: string };
  /** it failed before */
  again?: boolean;
}

/** Takes over what the house's own file says. */
export function TakeResult({ batchId, house, again = false }: TakeResultProps) {
  const take = useAction(batches.takeResult, { invalidates: [batches.show, batches.list] });
  return (
    <span>
      <Button
        variant="default"
        size="xs"
        loading={take.isPending}
        aria-label={`Take the ${again ? 'new ' : ''}result of ${house.address}`}
        onClick={() => take.mutate({ params: { id: batchId }, body: { houseId: house.id } })}
      >
        Take the {again ? 'new ' : ''}result
      </Button>
      {take.error && <Problem error={take.error} />}
    </span>
  );
}
