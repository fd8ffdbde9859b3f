/** How the page is built: one folder of static files, workers as modules, nothing fetched from elsewhere. Run as `vite build renderer`. */
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  base: './',
  plugins: [react()],
  worker: { format: 'es' },
  // The stock build of one dependency of the Markdown parser uses `document`, which a worker does not have; this condition picks the other.
  resolve: { conditions: ['worker', 'module', 'browser', 'import', 'default'] },
  build: {
    outDir: '../dist/renderer',
    emptyOutDir: true,
    target: 'es2022',
    chunkSizeWarningLimit: 8000,
    assetsInlineLimit: 0,
  },
});
