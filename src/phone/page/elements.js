// Elements of the page from names, attributes and what stands in them; text is never markup.
export function make(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (typeof value === 'function') element.addEventListener(key, value);
    else element.setAttribute(key, value === true ? '' : String(value));
  }
  for (const child of children.flat()) {
    if (child !== null && child !== undefined && child !== false) element.append(child);
  }
  return element;
}

let lastTap = 0;
const kSettling = 400;  // milliseconds in which a second tap on another key is a slip

// Whether a tap on a large key counts by now.
export const isSettled = () => performance.now() - lastTap >= kSettling;

// What stands under the thumb has changed by itself: for a moment a tap counts for nothing.
export function settle() {
  lastTap = performance.now() + 600;
}

// A large key. What it did moves on to the next question under the same thumb, so that a tap right
// after another one does nothing.
export function key(label, act, look = '') {
  return make('button', {
    type: 'button', class: ('key ' + look).trim(), 'data-key': label,
    click: () => {
      if (!isSettled()) return;
      lastTap = performance.now();
      act();
    }
  }, label);
}

export const button = (label, act) =>
  make('button', {type: 'button', 'data-key': label, click: act}, label);

let fields = 0;

// A labelled field; what stands in it stays when the page is drawn anew (`kept`, by name).
export function field(label, name, kept, attributes = {}) {
  const id = 'field-' + ++fields;
  const input = make('input', {
    type: 'text', id, name, maxlength: 1000, autocomplete: 'off', autocapitalize: 'off', 'data-key': name,
    ...attributes, input: () => { kept[name] = input.value; }
  });
  input.value = kept[name] || '';
  return make('div', {}, make('label', {for: id}, label), input);
}

// Acts with what stands in the field; where nothing does, the field asks for it.
export function withText(kept, name, act) {
  const text = (kept[name] || '').trim();
  if (text) return act(text);
  const input = document.querySelector(`[data-key="${name}"]`);
  input.setAttribute('aria-invalid', 'true');
  input.placeholder = 'needed';
  input.focus();
}

// `values` are what is chosen, each alone or with what it is called: [value, label].
export function choice(label, name, values, kept, changed = () => {}) {
  const id = 'field-' + ++fields;
  const pairs = values.map((each) => Array.isArray(each) ? each : [each, each]);
  const select = make('select', {id, 'data-key': name,
    change: () => { kept[name] = select.value; changed(); }},
  pairs.map(([value, says]) => make('option', {value}, says)));
  if (pairs.some(([value]) => value === kept[name])) select.value = kept[name];
  else kept[name] = pairs.length > 0 ? pairs[0][0] : '';
  return make('div', {}, make('label', {for: id}, label), select);
}

export function tick(label, name, kept, changed = () => {}) {
  const box = make('input', {
    type: 'checkbox', 'data-key': name, change: () => { kept[name] = box.checked; changed(); }
  });
  box.checked = Boolean(kept[name]);
  return make('label', {class: 'tick'}, box, label);
}

// What folds away; open as it was left.
export function fold(label, kept, ...children) {
  const name = 'fold ' + label;
  const details = make('details', {toggle: () => { kept[name] = details.open; }},
    make('summary', {'data-key': name}, label), children);
  details.open = Boolean(kept[name]);
  return details;
}

export const list = (lines) => make('ul', {}, lines.map((line) => make('li', {}, line)));

export const warning = (lines) =>
  lines.length === 0 ? null
    : make('div', {class: 'warn'}, lines.length === 1 ? make('p', {}, lines[0]) : list(lines));

// "2026-06-01 08:00" by the clock of this phone, as a moment stands everywhere else.
export function when(moment) {
  const at = new Date(moment);
  const two = (number) => String(number).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())} ` +
    `${two(at.getHours())}:${two(at.getMinutes())}`;
}

// "80 N·m", the figure large.
export const large = (what, figure, unit = '') =>
  make('p', {}, make('span', {class: 'soft'}, what), make('span', {class: 'unseen'}, ' '),
    make('div', {class: 'large'}, figure, unit && make('span', {class: 'unit'}, ' ' + unit)));

export const address = (joint, position) => `${joint}/${String(position).padStart(2, '0')}`;
