/**
 * What the bundles leave out of the libraries they are made with. The PDF library says nowhere that loading its files does nothing else, so all of it,
 * with readers of HTML and colours, would come along for a dozen classes; the font library brings a dictionary of 1.3 MB to open WOFF2. Together they
 * are more than half of a bundle, and were read anew at every start.
 */

/** Files that do nothing when they are loaded: only what is asked of them is taken. */
export const doesNothing = /[\\/]node_modules[\\/](?:pdf-lib|fontkit)[\\/]/;
const unpacker = /^brotli\/decompress(?:\.js)?$/;
const refusal = "() => { throw new Error('Fonts are opened as TrueType files here, not as WOFF2.'); }";

/** For the bundles that Node runs. @returns {import('esbuild').Plugin} */
export const lean = () => ({
  name: 'lean',
  setup(build) {
    const seen = Symbol('resolved');
    build.onResolve({ filter: /^(?:pdf-lib$|fontkit$|\.)/ }, async ({ path, pluginData, ...from }) => {
      if (pluginData === seen || (path.startsWith('.') && !doesNothing.test(from.importer))) return undefined;
      const found = await build.resolve(path, { ...from, pluginData: seen });
      return found.errors.length > 0 ? found : { path: found.path, sideEffects: false };
    });
    build.onResolve({ filter: unpacker }, ({ path }) => ({ path, namespace: 'woff2' }));
    build.onLoad({ filter: /.*/, namespace: 'woff2' }, () => ({ contents: `module.exports = ${refusal};`, loader: 'js' }));
  },
});

/** For the page's workers. @returns {import('vite').Plugin} */
export const leanWorker = () => ({
  name: 'lean',
  enforce: 'pre',
  resolveId: (id) => (unpacker.test(id) ? '\0woff2' : undefined),
  load: (id) => (id === '\0woff2' ? `export default ${refusal};` : undefined),
});
