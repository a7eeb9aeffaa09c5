import { lazy, Suspense, type ComponentType } from 'react';

/**
 * A dialog, or what opens in a fold, loaded when it is first shown. Until it is there nothing stands in its place: the
 * page around it can be used, and the focus stays where it is.
 */
export function onDemand<Props extends object>(bring: () => Promise<ComponentType<Props>>) {
  const Part = lazy(async () => ({ default: await bring() }));
  return function OnDemand(props: Props) {
    return (
      <Suspense>
        <Part {...props} />
      </Suspense>
    );
  };
}
