// `npm start`: packages, build, and a small server at an address that stays the same.
// The address matters: a browser keeps notebooks for one address only, port included.
import { createServer } from 'node:net';
import { root, setup } from './setup.mjs';

const host = '127.0.0.1';
const usualPort = 4747;

const port = askedPort(process.argv.slice(2));
if (!(await isFree(port))) {
  say(
    `Port ${port} is taken. If Ellwand is running already, open http://localhost:${port}/ or stop it first.`,
  );
  say(`To run at another port: npm start -- --port ${port + 1}`);
  say('Notebooks kept in the browser belong to one address: at another port you start with an empty shelf,');
  say('and can bring notebooks over as files.');
  process.exit(1);
}
await setup();
await serve();

async function serve() {
  process.env.NODE_ENV = 'production';
  process.chdir(root);
  const { build, preview } = await import('vite');
  await build({ logLevel: 'warn' });
  const server = await preview({ preview: { port, strictPort: true, host } });
  const stop = () => server.httpServer.close(() => process.exit(0));
  for (const signal of ['SIGTERM', 'SIGINT', 'SIGHUP']) process.on(signal, stop);
  if (process.env.npm_lifecycle_event) stopWithParent();
  console.log(`Ellwand is at http://localhost:${port}/  (Ctrl-C stops it)`);
}

/** npm does not pass every signal on; without this the server would outlive it and keep the port. */
function stopWithParent() {
  const parent = process.ppid;
  setInterval(() => {
    if (process.ppid !== parent) process.exit(0);
  }, 500).unref();
}

/**
 * The number after `--port`, or the usual one.
 * @param {readonly string[]} words
 */
function askedPort(words) {
  const place = words.indexOf('--port');
  if (place < 0) return usualPort;
  const text = words[place + 1];
  const asked = Number(text);
  if (Number.isInteger(asked) && asked > 0 && asked < 65536) return asked;
  say(`"${text ?? ''}" is not a port: give a whole number from 1 to 65535.`);
  process.exit(1);
}

/** @param {number} number */
function isFree(number) {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(false));
    probe.listen({ port: number, host, exclusive: true }, () => probe.close(() => resolve(true)));
  });
}

/** @param {string} text */
function say(text) {
  process.stderr.write(`${text}\n`);
}
