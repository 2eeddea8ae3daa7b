// Bundles the service and the planner's thread, each into one file; packages from npm stay outside.
import { defineConfig } from 'vite';

export default defineConfig({
  build: {
    ssr: true,
    outDir: 'dist',
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    sourcemap: true,
    rollupOptions: {
      input: { main: 'src/main.ts', 'planner-worker': 'src/jobs/planner-worker.ts' },
      output: { entryFileNames: '[name].js' },
    },
  },
});
