// The way to the logbook. What is tapped goes into this browser's own database first, with an id of
// its own and its time, and from there to the logbook, in order, each until it is answered: a second
// arrival of the same id is answered as the first. So nothing is lost by a link that drops, a page
// that is closed or a battery that ends between two taps.

const kRetry = 1500;
const kPatience = 8000;
const kLook = 1400;
const kSlowest = 16;  // bytes in a millisecond, as the server waits for

let database = null;
let clockOffset = 0;     // what the logbook's clock is ahead of this one, in milliseconds
let lastMoment = 0;
let sending = false;
let retry = null;

export const state = {
  queue: [],             // deeds that are not answered yet, in order; `refused` where one was
  taken: [],             // answered ones that a view may not show yet, each with the last line then
  mine: [],              // what was tapped here and can be taken back: {id, says}
  lost: '',              // what could not even be kept, and why
  answer: null,          // to the last deed that was taken
  link: 'up',            // up, down, unpaired
  lastLine: 0,
  tapped: 0,             // how often something was tapped since the page was opened
  who: ''
};

let changed = () => {};
export function onChange(act) { changed = act; }

const done = (request) => new Promise((take, refuse) => {
  request.onsuccess = () => take(request.result);
  request.onerror = () => refuse(request.error);
});

// In the database for good, or not at all.
async function write(store, act) {
  const transaction = database.transaction(store, 'readwrite', {durability: 'strict'});
  const result = done(act(transaction.objectStore(store)));
  await new Promise((take, refuse) => {
    transaction.oncomplete = take;
    transaction.onabort = transaction.onerror = () => refuse(transaction.error);
  });
  return result;
}

export async function open() {
  const opening = indexedDB.open('boltwitness', 1);
  opening.onupgradeneeded = () => {
    opening.result.createObjectStore('deeds', {keyPath: 'n', autoIncrement: true});
    opening.result.createObjectStore('kept');
  };
  database = await done(opening);
  const read = database.transaction(['deeds', 'kept']);
  state.queue = await done(read.objectStore('deeds').getAll());
  state.mine = (await done(read.objectStore('kept').get('mine'))) || [];
  if (state.queue.length > 0) lastMoment = state.queue[state.queue.length - 1].deed.at;
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist();
  setInterval(look, kLook);
  addEventListener('online', () => { look(); send(); });
  document.addEventListener('visibilitychange', () => { if (!document.hidden) { look(); send(); } });
  send();
}

// The tail of the entry's id: the variant and 62 random bits.
function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  bytes[0] = (bytes[0] & 0x3f) | 0x80;
  const digits = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return digits.slice(0, 4) + '-' + digits.slice(4);
}

function forget(kept) {
  state.queue = state.queue.filter((other) => other !== kept);
  state.mine = state.mine.filter((own) => own.id !== kept.deed.id);
}

// Keeps a deed and sends it. `says` is what it is called in the list of what waits; `picture` the
// bytes of a photograph. As bytes and not as a file they are in the database once it says so.
export async function tap(deed, says, picture = null) {
  lastMoment = Math.max(Date.now() + clockOffset, lastMoment + 1);
  const kept = {deed: {id: newId(), at: lastMoment, ...deed}, says, refused: null};
  if (picture) kept.picture = picture;
  state.queue.push(kept);
  state.lost = '';
  ++state.tapped;
  const undone = deed.kind === 'undo' && state.mine.find((own) => own.id === deed.of);
  if (deed.kind === 'undo') state.mine = state.mine.filter((own) => own !== undone);
  else state.mine.push({id: kept.deed.id, says});
  if (state.mine.length > 60) state.mine.shift();
  changed();
  try {
    kept.n = await write('deeds', (store) => store.add({...kept}));
    await write('kept', (store) => store.put(state.mine, 'mine'));
  } catch (why) {
    if (kept.n === undefined) {
      forget(kept);
      if (undone) state.mine.push(undone);
      state.lost = `${says} could not be kept by this browser (${why.name}) and is not recorded. ` +
        'Where it is full, wait for the link, then do it again.';
      changed();
      return;
    }
  }
  send();
}

// Takes back the last of what was tapped here.
export function takeBack() {
  const last = state.mine[state.mine.length - 1];
  if (last) tap({kind: 'undo', of: last.id}, 'take back: ' + last.says);
}

// The ids of what was taken back here of late, or is being.
export const takenBack = () => new Set([...state.taken, ...state.queue.filter((kept) => !kept.refused)]
  .map((each) => each.deed).filter((deed) => deed.kind === 'undo').map((deed) => deed.of));

// What is not in what the logbook showed yet and was neither refused nor taken back: a page shows it
// as done already.
export function waiting(shown) {
  const deeds = [
    ...state.taken.filter((taken) => taken.line > shown.last_line).map((taken) => taken.deed),
    ...state.queue.filter((kept) => !kept.refused)
      .map((kept) => kept.picture ? {...kept.deed, picture: kept.picture} : kept.deed)];
  const undone = takenBack();
  return deeds.filter((deed) => deed.kind !== 'undo' && !undone.has(deed.id));
}

export const refused = () => state.queue.find((kept) => kept.refused);

// A deed that was refused is sent once more, or left out for good.
export async function tryAgain(kept) {
  kept.refused = null;
  await write('deeds', (store) => store.put(kept));
  changed();
  send();
}

export async function leaveOut(kept) {
  forget(kept);
  await write('deeds', (store) => store.delete(kept.n));
  await write('kept', (store) => store.put(state.mine, 'mine'));
  changed();
  send();
}

async function ask(path, options = {}, patience = kPatience) {
  const limit = new AbortController();
  const timer = setTimeout(() => limit.abort(), patience);
  try {
    const response = await fetch(path, {
      ...options, signal: limit.signal, cache: 'no-store', credentials: 'same-origin'});
    const body = await response.json().catch(() => null);
    if (body !== null) return {status: response.status, body};
    if (response.status !== 413) throw new Error('no answer');
    return {status: 413, body: {refused: 'this is too long; nothing was recorded'}};
  } finally {
    clearTimeout(timer);
  }
}

const post = (path, body) => ask(path, {
  method: 'POST', headers: {'Content-Type': 'application/json'}, body: JSON.stringify(body)});

// A deed with a photograph: the one on a line of its own, then the bytes of the other. It is given
// the time that it takes on a slow way.
const postPicture = (deed, picture) => ask('/api/photograph', {
  method: 'POST', headers: {'Content-Type': 'application/octet-stream'},
  body: new Blob([JSON.stringify(deed), '\n', picture])
}, kPatience + picture.byteLength / kSlowest);

function setLink(link) {
  if (state.link === link) return;
  state.link = link;
  changed();
}

const isPassing = (status) => status >= 500 || status === 429;

// One after the other, none before the one before it was answered.
async function send() {
  if (sending || database === null) return;
  sending = true;
  clearTimeout(retry);
  try {
    while (state.queue.length > 0) {
      const first = state.queue[0];
      if (first.refused || first.n === undefined) break;
      const {status, body} = await (first.picture ? postPicture(first.deed, first.picture)
        : post('/api/deed', first.deed));
      if (isPassing(status)) throw new Error(body.refused);
      if (status === 401) { setLink('unpaired'); break; }
      state.link = 'up';
      if (status !== 200) {
        first.refused = body.refused;
        await write('deeds', (store) => store.put(first));
        changed();
        break;
      }
      state.queue.shift();
      state.taken.push({deed: first.deed, line: body.last_line});
      if (state.taken.length > 500) state.taken.shift();
      state.answer = {deed: first.deed, ...body};
      await write('deeds', (store) => store.delete(first.n));
      await seen(body.last_line);
    }
  } catch {
    setLink('down');
    retry = setTimeout(send, kRetry);
  } finally {
    sending = false;
  }
}

let refresh = async () => {};
export function onNewLine(act) { refresh = act; }

async function seen(line) {
  if (line === state.lastLine) return;
  state.lastLine = line;
  await refresh();
}

// Whether somebody else wrote something.
async function look() {
  if (document.hidden || state.link === 'unpaired') return;
  try {
    const {status, body} = await ask('/api/line');
    if (status === 401) return setLink('unpaired');
    if (isPassing(status)) return setLink('down');
    const wasDown = state.link === 'down';
    setLink('up');
    if (wasDown) {
      // What was opened meanwhile could not be shown.
      send();
      state.lastLine = body.last_line;
      await refresh();
    } else {
      await seen(body.last_line);
    }
  } catch {
    setLink('down');
  }
}

const views = new Map();  // what was last shown, for when the link is down

// What a page shows: anew, else as it was last seen. `refused` where it cannot be shown.
export async function view(path) {
  try {
    const {status, body} = await ask(path);
    if (status === 401) { setLink('unpaired'); return {refused: body.refused}; }
    if (isPassing(status)) throw new Error(body.refused);
    if (state.link !== 'up') state.link = 'up';
    if (status !== 200) return {refused: body.refused};
    clockOffset = body.now - Date.now();
    state.lastLine = body.last_line;
    state.who = body.who;
    views.set(path, body);
    return body;
  } catch {
    setLink('down');
    return views.get(path) ||
      {refused: 'There is no link to the logbook, and this was not opened before it dropped.'};
  }
}

export async function pair(code, who) {
  const {status, body} = await post('/api/pair', {code, who});
  if (status !== 200) return body.refused;
  state.link = 'up';
  send();
  return null;
}
