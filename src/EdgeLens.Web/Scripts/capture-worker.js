// Answers when the server cannot be reached, so that the page to photograph with opens on the phone all the same. Keeps nothing but that page.
'use strict';

const page = '/capture/offline';
const files = [page, '/web.css', '/capture.js'];

self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', event => event.waitUntil(self.clients.claim()));

self.addEventListener('fetch', event => {
  const request = event.request, url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (request.mode === 'navigate' && (url.pathname === '/' || url.pathname.startsWith('/capture'))) event.respondWith(fetch(request).catch(() => caches.match(page)));
  else if (files.includes(url.pathname)) event.respondWith(fetch(request).catch(() => caches.match(url.pathname)));
});
