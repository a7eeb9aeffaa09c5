import { Readable } from 'node:stream';

/**
 * A text that is sent piece by piece, once its first piece is there: what cannot be read at all is refused in words
 * instead of breaking off an answer that has begun.
 */
export async function begun(pieces: AsyncGenerator<string>): Promise<Readable> {
  const first = await pieces.next();
  return Readable.from(
    (async function* () {
      if (first.done) return;
      yield first.value;
      yield* pieces;
    })(),
  );
}
