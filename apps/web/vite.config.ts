// Builds the staff's web app; during development the service answers /api, /client and /calendar.
import path from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const service = 'http://127.0.0.1:4800';

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  build: { outDir: path.join(import.meta.dirname, 'dist'), emptyOutDir: true, target: 'es2022', assetsInlineLimit: 0 },
  server: { proxy: { '/api': service, '/client': service, '/calendar': service } },
});
