import './look/index.css';
import { QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { router } from './app/router.tsx';
import { fetchForTheShed } from './app/shed.ts';
import { openOutbox } from './data/outbox.ts';
import { queryClient, readAgain } from './data/queries.ts';

// Where the browser's store is closed (private windows of some browsers) entries still go straight to the server.
void openOutbox(
  () =>
    void readAgain(
      'round',
      'animals',
      'readings',
      'notices',
      'stays',
      'places',
      'boxes',
      'probes',
      'tasks-done',
      'deleted',
      'records',
    ),
).catch(() => undefined);

const root = document.getElementById('root');
if (root)
  createRoot(root).render(
    <StrictMode>
      <QueryClientProvider client={queryClient}>
        <RouterProvider router={router} />
      </QueryClientProvider>
    </StrictMode>,
  );

fetchForTheShed();
