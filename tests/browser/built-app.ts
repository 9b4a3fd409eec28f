// The app as users get it, built and served: for the browser tests and for the bench.
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { type PreviewServer, preview } from 'vite';

/**
 * Builds the app of a checkout into a folder. In a child process, because vitest sets NODE_ENV to "test", with which
 * vite would build the app as for development. Throws when it cannot be built.
 */
export function buildApp(root: string, outDir: string): void {
  const words = ['build', '--outDir', outDir, '--emptyOutDir', '--logLevel', 'warn'];
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(root, 'node_modules/vite/bin/vite.js'), ...words],
    {
      cwd: root,
      env: { ...process.env, NODE_ENV: 'production', VITEST: undefined },
      encoding: 'utf8',
    },
  );
  if (status !== 0) throw new Error(`The app could not be built:\n${stdout}${stderr}`);
}

/** Serves a built app on this machine; `port` 0 takes any that is free. Throws when the port is taken. */
export function serveApp(root: string, outDir: string, port = 0): Promise<PreviewServer> {
  return preview({
    root: join(root, 'src'),
    configFile: join(root, 'vite.config.ts'),
    build: { outDir },
    preview: { host: '127.0.0.1', port, strictPort: port !== 0 },
    logLevel: 'warn',
  });
}
