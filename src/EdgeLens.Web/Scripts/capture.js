// Photographs are first kept on the phone and then sent, so that a lost connection loses none. A photograph is deleted here only when the server has
// said what became of it. Without this script the form sends by itself, as any form does.
'use strict';

(async () => {
  const place = document.getElementById('phone');
  if (!place || !window.indexedDB) return;
  const texts = place.dataset;
  const files = ['/capture/offline', '/web.css', '/capture.js'];
  const signedIn = texts.staff;
  if (signedIn) localStorage.setItem('edgelens-staff', signedIn);
  const staff = signedIn || localStorage.getItem('edgelens-staff');

  // The phone's store.
  const asked = call => new Promise((done, failed) => { call.onsuccess = () => done(call.result); call.onerror = () => failed(call.error); });
  const opening = indexedDB.open('edgelens', 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore('photographs', { keyPath: 'id' });
  const database = await asked(opening);
  const photographs = mode => database.transaction('photographs', mode).objectStore('photographs');
  const all = async () => (await asked(photographs('readonly').getAll())).sort((a, b) => a.takenAt - b.takenAt);
  const put = async photograph => {
    const change = database.transaction('photographs', 'readwrite', { durability: 'strict' });
    change.objectStore('photographs').put(photograph);
    await new Promise((done, failed) => { change.oncomplete = done; change.onerror = change.onabort = () => failed(change.error); });
  };
  const forget = id => asked(photographs('readwrite').delete(id));

  // What waits is shown.
  const element = (name, cssClass, text) => {
    const made = document.createElement(name);
    if (cssClass) made.className = cssClass;
    if (text) made.textContent = text;
    return made;
  };
  const button = (text, act) => {
    const made = element('button', 'button plain', text);
    made.type = 'button';
    made.addEventListener('click', act);
    return made;
  };
  let notice = '', progress = null;
  const say = async words => { notice = words; await show(); };
  const show = async () => {
    const kept = await all();
    place.replaceChildren();
    if (notice) place.append(element('p', 'status', notice));
    if (progress !== null) {
      const bar = element('progress');
      bar.max = 1;
      bar.value = progress;
      bar.setAttribute('aria-label', texts.sending);
      place.append(bar);
    }
    listed(kept.filter(p => p.refused), texts.refused);
    const waiting = kept.filter(p => !p.refused);
    listed(waiting, (waiting.length === 1 ? texts.oneWaits : texts.manyWait).replace('{0}', waiting.length));
    if (waiting.length > 0) place.append(button(texts.sendNow, () => sendAll()));
    if (needsSignIn) {
      const link = element('a', 'button', texts.signIn);
      link.href = '/sign-in?then=capture';
      place.append(link);
    }
  };
  const listed = (kept, heading) => {
    if (kept.length === 0) return;
    place.append(element('h2', '', heading));
    const list = element('ul', 'waiting-list');
    for (const p of kept) {
      const item = element('li');
      item.append(element('strong', '', p.label), element('span', '', `${new Date(p.takenAt).toLocaleString()}, ${p.staff}`));
      if (p.refused) item.append(element('span', 'refused', p.refused));
      else if (p.staff !== signedIn && signedIn) item.append(element('span', '', texts.otherStaff.replace('{0}', p.staff)));
      item.append(button(p.refused ? texts.dismiss : texts.discard, async () => {
        if (p.refused || confirm(texts.sure)) { await forget(p.id); await show(); }
      }));
      list.append(item);
    }
    place.append(list);
  };

  // Sending. One tab of the phone sends at a time.
  let needsSignIn = false;
  const wait = milliseconds => new Promise(done => setTimeout(done, milliseconds));
  const asJson = async path => {
    const answer = await fetch(path, { headers: { Accept: 'application/json' }, redirect: 'manual', cache: 'no-store' });
    if (answer.type === 'opaqueredirect') { needsSignIn = true; return null; }
    return answer.ok ? await answer.json() : null;
  };
  const upload = (photograph, token) => new Promise((done, failed) => {
    const body = new FormData();
    body.append('__RequestVerificationToken', token);
    body.append('sent', photograph.id);
    body.append('age', Math.max(0, Math.round((Date.now() - photograph.takenAt) / 1000)));
    for (const [name, value] of Object.entries(photograph.fields)) body.append(name, value);
    body.append('photograph', photograph.file, 'photograph');
    const request = new XMLHttpRequest();
    request.open('POST', photograph.action);
    request.setRequestHeader('Accept', 'application/json');
    request.upload.onprogress = event => { if (event.lengthComputable) { progress = event.loaded / event.total; const bar = place.querySelector('progress'); if (bar) bar.value = progress; } };
    request.onload = () => { try { done(JSON.parse(request.responseText)); } catch { failed(new Error(`${request.status}`)); } };
    request.onerror = () => failed(new Error('offline'));
    request.send(body);
  });
  const settle = async (photograph, answer) => {
    while (answer && answer.state === 'waiting') {
      await say(texts.measuring);
      await wait(500);
      answer = await asJson('/capture/sent?id=' + photograph.id);
    }
    if (!answer) return false;
    if (answer.state === 'entered' || answer.state === 'held') await forget(photograph.id);
    else if (answer.state === 'refused') {
      // Refused is refused: the photograph is of no more use, but whoever took it hours ago has to read why.
      if (photograph.id === foreground) await forget(photograph.id);
      else await put({ ...photograph, file: null, refused: `${answer.reason} ${answer.advice}` });
    } else return false;
    if (photograph.id === foreground) { leaving = true; location.assign(answer.path); }
    return true;
  };
  let foreground = null, leaving = false;
  const send = async photograph => {
    const session = await asJson('/capture/token');
    if (!session || session.staff !== photograph.staff) return false;
    progress = 0;
    await say(texts.sending);
    let answer;
    try { answer = await upload(photograph, session.token); } finally { progress = null; }
    return await settle(photograph, answer);
  };
  const sendEach = async () => {
    needsSignIn = false;
    let problem = '';
    for (const photograph of await all()) {
      if (photograph.refused || leaving) continue;
      try { if (!await send(photograph)) problem = needsSignIn ? texts.signInFirst : texts.later; }
      catch (error) { problem = error instanceof TypeError || error.message === 'offline' ? texts.offline : `${texts.notTaken} (${error.message})`; }
      if (problem === texts.offline || needsSignIn) break;
    }
    if (!leaving) await say(problem);
  };
  const sendAll = () => navigator.locks ? navigator.locks.request('edgelens-send', sendEach) : sendEach();

  // The form.
  const form = document.querySelector('form.capture');
  if (form) form.addEventListener('submit', async event => {
    const picked = form.elements.photograph.files[0];
    if (!picked || !staff) return;
    event.preventDefault();
    const fields = {};
    for (const [name, value] of new FormData(form)) if (typeof value === 'string' && name !== '__RequestVerificationToken' && name !== 'which') fields[name] = value;
    const which = form.elements.which;
    const photograph = {
      id: Array.from(crypto.getRandomValues(new Uint8Array(16)), b => b.toString(16).padStart(2, '0')).join(''),
      staff, takenAt: Date.now(), file: picked, fields,
      action: which ? which.value : form.getAttribute('action'), label: which ? which.selectedOptions[0].textContent : form.dataset.label,
    };
    try { await put(photograph); } catch (error) { await say(`${texts.phoneFull} (${error.name})`); return; }
    form.elements.photograph.value = '';
    foreground = photograph.id;
    await show();
    // Its result is shown at once if it comes in this go; not when it was sent hours later.
    await sendAll();
    if (foreground === photograph.id) foreground = null;
  });

  addEventListener('online', () => sendAll());
  await show();
  if (navigator.onLine) sendAll();

  // The page for when there is no connection.
  if (signedIn && 'serviceWorker' in navigator && window.caches) {
    try {
      await navigator.serviceWorker.register('/capture-worker.js', { scope: '/' });
      const cache = await caches.open('edgelens');
      for (const path of files) {
        const answer = await fetch(path, { redirect: 'error' });
        if (answer.ok) await cache.put(path, answer);
      }
      document.documentElement.dataset.offline = 'ready';
    } catch (error) {
      // No certificate that the phone trusts, or no room: it works while the server is there.
      console.info('Not kept for offline use: ' + error.message);
    }
  }
})();
