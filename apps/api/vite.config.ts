// Bundles the service into one file; packages from npm stay outside.
import { defineConfig } from 'vite';

export default defineConfig({
  build: {
    ssr: 'src/main.ts',
    outDir: 'dist',
    emptyOutDir: true,
    target: 'node20',
    minify: false,
    sourcemap: true,
    rollupOptions: { output: { entryFileNames: 'main.js' } },
  },
});
