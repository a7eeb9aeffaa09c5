import { randomUUID } from 'node:crypto';
import type { Client } from './app.ts';

/** A form with a file, as a page sends it. */
export function upload(
  client: Client,
  url: string,
  fields: Record<string, string>,
  file: Buffer | null,
  { name = 'photo.jpg', type = 'image/jpeg' } = {},
) {
  const boundary = `----${randomUUID()}`;
  const parts: Buffer[] = Object.entries(fields).map(([key, value]) =>
    Buffer.from(`--${boundary}\r\ncontent-disposition: form-data; name="${key}"\r\n\r\n${value}\r\n`),
  );
  if (file)
    parts.push(
      Buffer.from(
        `--${boundary}\r\ncontent-disposition: form-data; name="file"; filename="${name}"\r\ncontent-type: ${type}\r\n\r\n`,
      ),
      file,
      Buffer.from('\r\n'),
    );
  parts.push(Buffer.from(`--${boundary}--\r\n`));
  return client.send({
    method: 'POST',
    url: `/api${url}`,
    headers: { 'content-type': `multipart/form-data; boundary=${boundary}` },
    payload: Buffer.concat(parts),
  });
}
