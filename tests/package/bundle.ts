import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { rolldown } from 'rolldown';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** A bundle for a browser that takes some names of the library. */
export interface Bundle {
  /** Minified, and minified and compressed, bytes. */
  readonly size: number;
  readonly compressed: number;
  /** Files of the library, and packages, of which something is in it. */
  readonly files: readonly string[];
  readonly packages: readonly string[];
}

/** Bundles what an application takes in that imports `names` of the built library. */
export async function bundleOf(names: string): Promise<Bundle> {
  const bundle = await rolldown({
    input: 'application',
    cwd: root,
    platform: 'browser',
    logLevel: 'silent',
    plugins: [
      {
        name: 'application',
        resolveId: (id) => (id === 'application' ? path.join(root, 'application.js') : null),
        load: (id) => (id === path.join(root, 'application.js') ? `export ${names} from 'fretlay';` : null),
      },
    ],
  });
  const { output } = await bundle.generate({ format: 'esm', minify: true });
  // What is loaded only when it is asked for is in files of its own: all of them count.
  const chunks = output.filter((file) => file.type === 'chunk');
  const code = chunks.map((chunk) => chunk.code).join('');
  const modules = chunks
    .flatMap((chunk) => Object.entries(chunk.modules))
    .filter(([, { renderedLength }]) => renderedLength > 0);
  const ids = modules.map(([id]) => path.relative(root, id));
  return {
    size: code.length,
    compressed: gzipSync(code).length,
    files: ids.filter((id) => id.startsWith('dist')),
    packages: [
      ...new Set(ids.flatMap((id) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(id)?.[1] ?? [])),
    ].sort(),
  };
}
