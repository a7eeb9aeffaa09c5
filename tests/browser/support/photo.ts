import sharp from 'sharp';

/** A picture of nothing in particular, large enough that the page has to make it smaller. */
export const photoOf = (colour: string): Promise<Buffer> =>
  sharp({ create: { width: 2400, height: 1600, channels: 3, background: colour } })
    .png()
    .toBuffer();
