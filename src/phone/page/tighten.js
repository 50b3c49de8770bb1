import {make, key, button, field, choice, fold, large, list, warning, address, withText} from './elements.js';
import {tap, takeBack, view, waiting} from './link.js';

const kept = {};
const met = new Set();  // conditions of final values that were said to be met
let redraw = () => {};

const isOf = (deed, step) => deed.joint === step.joint && deed.position === step.position &&
  deed.pass === step.pass && deed.kind === 'tighten';

function stepsLeft(shown) {
  const deeds = waiting(shown);
  return shown.steps.filter((step) => !deeds.some((deed) => isOf(deed, step)));
}

function record(step, more, says) {
  const deed = {kind: 'tighten', joint: step.joint, position: step.position, pass: step.pass, ...more};
  if (step.asks_for_look && !more.skip) deed.seen = (kept.seen || '').trim();
  kept.seen = kept.why = kept.setting = kept.turned = '';
  tap(deed, `${address(step.joint, step.position)} pass ${step.pass} ${says}`);
}

// What can be done to a covered joint only before its cover closes it.
function beforeCover(first) {
  const mark = first.unchecked === null;
  const where = `${first.joint}/${mark ? first.unstriped : first.unchecked}`;
  return [
    make('h1', {}, where),
    make('p', {class: 'warn'}, first.says + '.'),
    make('p', {class: 'do'}, mark
      ? 'Wipe off the teardown mark and draw the final stripe now.'
      : 'Somebody who did not tighten it checks it, and taps here on a phone of their own.'),
    mark && first.counter && field(`What the counter shows, such as 1240 ${first.counter}`, 'counter', kept),
    key(mark ? 'Drawn' : 'Checked', () => {
      const deed = mark
        ? {kind: 'stripe', joint: first.joint, positions: first.unstriped, wiped: true}
        : {kind: 'check', joint: first.joint, positions: first.unchecked};
      if (mark && kept.counter) deed.counter = kept.counter;
      tap(deed, `${where} ${mark ? 'striped' : 'checked'}`);
    }, 'whole')
  ];
}

// What is typed is of one step.
function otherValues(shown, step) {
  const of = `${address(step.joint, step.position)} ${step.pass}`;
  if (kept.of !== of) {
    Object.assign(kept, {of, wrench: step.wrench || '', setting: '', turned: ''});
  }
  if (step.kind === 'angle') {
    return fold('Other values', kept, field('Turned by, such as 62°', 'turned', kept),
      button('Record that', () => withText(kept, 'turned',
        (turned) => record(step, {turned}, 'turned otherwise'))));
  }
  if (step.wrench === null && step.target_nm === null) return null;
  return fold('Other values', kept, choice('Wrench', 'wrench', shown.wrenches, kept),
    field('Set to, on its scale', 'setting', kept, {inputmode: 'decimal'}),
    button('Record that', () => withText(kept, 'setting',
      (setting) => record(step, {wrench: kept.wrench, setting}, 'otherwise'))));
}

function figures(step) {
  return make('div', {class: 'figures'},
    large('position', step.position),
    step.setting !== null ? large(`${step.wrench} set to`, step.setting, step.unit)
      : step.angle_deg !== null
        ? large(step.kind === 'loosen' ? 'loosen by' : 'turn by', step.angle_deg, '°') : null);
}

export async function tighten(joint, draw) {
  redraw = draw;
  const shown = await view('/api/tighten' + (joint ? '?' + new URLSearchParams({joint}) : ''));
  return () => {
    if (!shown.steps) {
      return [make('h1', {}, joint || 'Tighten'), make('p', {class: 'refused'}, shown.refused)];
    }
    const [step, ...then] = stepsLeft(shown);
    const undo = button('Undo', () => takeBack());
    if (shown.refused) {
      return [make('h1', {}, step ? address(step.joint, step.position) : joint || 'Tighten'),
        make('p', {class: 'refused'}, shown.refused), make('div', {class: 'row'}, undo)];
    }
    if (shown.mark_first && !waiting(shown).some((deed) => deed.joint === shown.mark_first.joint)) {
      return [...beforeCover(shown.mark_first), make('div', {class: 'row'}, undo)];
    }
    if (!step) {
      return [
        make('h1', {}, joint || 'Tighten', make('span', {class: 'place'}, ` ${shown.done} of ${shown.of} steps done`)),
        make('p', {class: 'do'}, shown.of === 0 ? 'Nothing is planned here.' : 'No step is open any more.'),
        shown.stripes.length > 0 &&
          make('a', {class: 'button key', href: '#/stripe'}, 'Draw the final stripes'),
        make('div', {class: 'row'}, undo)
      ];
    }
    const head = make('h1', {}, address(step.joint, step.position), make('span', {class: 'place'},
      ` pass ${step.pass} of ${step.passes}, ${step.place} of ${step.of}`));
    if (step.final_when && !met.has(step.final_when)) {
      return [head, make('p', {class: 'do'}, `Its final value is set when ${step.final_when}. Is it so now?`),
        key('It is so', () => { met.add(step.final_when); redraw(); }, 'whole'),
        make('div', {class: 'row'}, undo)];
    }
    const unmet = shown.unmet && shown.unmet.joint === step.joint ? shown.unmet.says : [];
    return [
      head,
      make('p', {class: 'soft'}, `${step.holds}: ${step.says}`),
      step.place === 1 && step.pass === 1 && unmet.length > 0 &&
        make('div', {class: 'warn'}, make('p', {}, 'Before this joint:'), list(unmet)),
      warning(step.before),
      figures(step),
      step.asks_for_look && field('Seen of thread, face and seat', 'seen', kept),
      make('div', {class: 'keys'}, key('Done', () => record(step, {}, 'done'), 'whole')),
      then.length > 0 && make('p', {class: 'soft'}, 'then ' + then.slice(0, 3)
        .map((next) => next.joint === step.joint && next.pass === step.pass ? next.position
          : `${address(next.joint, next.position)} in pass ${next.pass}`).join(', ')),
      make('div', {class: 'row'}, undo),
      otherValues(shown, step),
      fold('Leave it out', kept, field('Why', 'why', kept),
        button('Leave it out', () => withText(kept, 'why',
          (skip) => record(step, {skip}, 'left out'))))
    ];
  };
}
