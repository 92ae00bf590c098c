import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: 'src/web',
  publicDir: 'public',
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    // A strict content security policy allows no data: addresses, so nothing is inlined.
    assetsInlineLimit: 0,
    sourcemap: false,
  },
});
