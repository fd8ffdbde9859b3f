/** How the page is built: one folder of static files, workers as modules, nothing fetched from elsewhere. Run as `vite build renderer`. */
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { doesNothing, leanWorker } from '../cli/build/lean.mjs';

/**
 * Core and publishing are pure: a module of theirs that nothing is used of does nothing when it is loaded. The page takes a handful of words from
 * them by way of their doors; without this line it would carry the fonts' reader, the PDF writer and every schema too, and start twice as slowly.
 */
const pure = (id: string): boolean => !/\/(procedures-schema|publishing)\/(?!.*node_modules)/.test(id) && !doesNothing.test(id);
const treeshake = { moduleSideEffects: pure };

/** What the page needs in any case is named in its head, so that it is fetched side by side instead of one after the other has run. */
const named: Plugin = {
  name: 'named-in-the-head',
  transformIndexHtml: {
    order: 'post',
    handler(_, { bundle = {}, chunk }) {
      const files = new Set<string>();
      const styles = new Set<string>();
      const add = (file: string): void => {
        const own = bundle[file];
        if (own?.type !== 'chunk' || files.has(file)) return;
        files.add(file);
        for (const style of own.viteMetadata?.importedCss ?? []) styles.add(style);
        for (const next of own.imports) add(next);
      };
      for (const file of chunk?.dynamicImports ?? []) add(file);
      const fonts = Object.keys(bundle).filter((file) => /SourceSans3-.*\.woff2$/.test(file));
      const link = (attrs: Record<string, string>) => ({ tag: 'link', attrs: { crossorigin: '', ...attrs }, injectTo: 'head' as const });
      return [
        ...[...files].map((file) => link({ rel: 'modulepreload', href: `./${file}` })),
        ...fonts.map((file) => link({ rel: 'preload', as: 'font', type: 'font/woff2', href: `./${file}` })),
        ...[...styles].map((file) => link({ rel: 'stylesheet', href: `./${file}` })),
      ];
    },
  },
};

export default defineConfig({
  base: './',
  plugins: [react(), named],
  worker: { format: 'es', plugins: () => [leanWorker()], rolldownOptions: { treeshake } },
  // The stock build of one dependency of the Markdown parser uses `document`, which a worker does not have; this condition picks the other.
  resolve: { conditions: ['worker', 'module', 'browser', 'import', 'default'] },
  build: {
    outDir: '../dist/renderer',
    emptyOutDir: true,
    target: 'es2022',
    chunkSizeWarningLimit: 8000,
    assetsInlineLimit: 0,
    rolldownOptions: { treeshake },
  },
});
