import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

const require = createRequire(import.meta.url);

/** Node as new as some tools want it: a dependency, since Debian's is older. */
export function newerNode() {
  const folder = dirname(require.resolve(`node-linux-${process.arch}/package.json`));
  return join(folder, 'bin', 'node');
}
