// What a push message brings is shown at once, and a tap on it opens the screen it speaks of.
self.addEventListener('push', (event) => {
  let letter = {};
  try {
    letter = event.data ? event.data.json() : {};
  } catch {
    letter = { text: event.data.text() };
  }
  event.waitUntil(
    self.registration.showNotification(letter.title || 'Stillwinter', {
      body: letter.text || '',
      tag: letter.id,
      icon: '/icon.svg',
      requireInteraction: letter.level === 'act-now',
      data: { path: typeof letter.path === 'string' && letter.path.startsWith('/') ? letter.path : '/' },
    }),
  );
});

self.addEventListener('notificationclick', (event) => {
  event.notification.close();
  const { path } = event.notification.data;
  event.waitUntil(
    self.clients.matchAll({ type: 'window' }).then(async (pages) => {
      const open = pages[0];
      if (!open) return self.clients.openWindow(path);
      // A browser that does not let the page come forward still shows the right screen in it.
      await open.focus().catch(() => undefined);
      return open.navigate(path);
    }),
  );
});
