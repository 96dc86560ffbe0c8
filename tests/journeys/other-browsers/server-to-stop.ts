import { createServer } from 'node:http';

/** A server with the same files as another, which can be stopped as if the network were gone. */
export async function serverToStop(
  files: string,
): Promise<{ readonly url: string; readonly stop: () => Promise<void> }> {
  const server = createServer(async ({ url = '/' }, answer) => {
    const file = await fetch(new URL(url, files));
    answer.writeHead(file.status, { 'content-type': file.headers.get('content-type') ?? '' });
    answer.end(Buffer.from(await file.arrayBuffer()));
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('No port was free.');
  return {
    url: `http://127.0.0.1:${address.port}/`,
    stop: () =>
      new Promise((stopped) => {
        server.close(() => stopped());
        server.closeAllConnections();
      }),
  };
}
