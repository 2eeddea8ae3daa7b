// Bundles the service, the planner's thread and the maker of the demo firm; packages from npm stay outside.
import { defineConfig, type Plugin } from 'vite';

/** Letters beyond ASCII as escapes: a program with a single one of them takes two bytes of memory for each of its letters, for ever. */
const ascii: Plugin = {
  name: 'ascii',
  renderChunk: {
    order: 'post',
    handler: (code) => ({
      code: code.replace(/[^\x00-\x7f]/g, (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`),
      map: null,
    }),
  },
};

export default defineConfig({
  plugins: [ascii],
  build: {
    ssr: true,
    outDir: 'dist',
    emptyOutDir: true,
    target: 'node20',
    minify: false, // names and lines stay as they are written: they stand in the log
    sourcemap: true,
    rollupOptions: {
      input: { main: 'src/main.ts', 'planner-worker': 'src/jobs/planner-worker.ts', 'demo-maker': '../../prisma/seed/demo/maker.ts' },
      output: { entryFileNames: '[name].js' },
    },
  },
});
