import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { firstPage, firstScreenGroups, packed } from './tools/first-page.ts';

export default defineConfig({
  root: 'src/web',
  publicDir: 'public',
  plugins: [
    react(),
    firstPage,
    // The screens stay readable in a shed without network. A new version waits until it is asked for: it never reloads a half-typed form.
    VitePWA({
      registerType: 'prompt',
      injectRegister: false,
      manifest: {
        name: 'Stillwinter',
        short_name: 'Stillwinter',
        description: 'Takes pet and rescue tortoises through the winter.',
        start_url: '/',
        display: 'standalone',
        background_color: '#f7f2e6',
        theme_color: '#f7f2e6',
        icons: [{ src: '/icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
      },
      workbox: {
        globPatterns: ['**/*.{html,js,css,svg,woff2}'],
        importScripts: ['/push.js'],
        navigateFallback: '/index.html',
        navigateFallbackDenylist: [/^\/api\//, /^\/calendar\//, /^\/health$/],
      },
    }),
    packed('dist/web'),
  ],
  worker: { format: 'es' },
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    // A strict content security policy allows no data: addresses, so nothing is inlined.
    assetsInlineLimit: 0,
    sourcemap: false,
    rolldownOptions: {
      input: ['src/web/index.html', 'src/web/early.ts'],
      output: { codeSplitting: { groups: firstScreenGroups } },
    },
  },
});
