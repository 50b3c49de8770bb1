import {make, list, large} from './elements.js';
import {view} from './link.js';
import {photographsOf} from './photographs.js';

// Where a command of the terminal has its page here.
const kPages = {bench: 'teardown', out: 'teardown', found: 'teardown', tighten: 'tighten',
  stripe: 'stripe', recheck: 'stripe', show: 'show'};

function pageOf(command) {
  const [verb, where = ''] = command.split(' ');
  const page = kPages[verb];
  if (!page) return null;
  const joint = where.split('/')[0];
  return page === 'stripe' ? '#/stripe' : `#/${page}/${encodeURIComponent(joint)}`;
}

const labelOf = (page) => {
  const [, name, joint] = page.split('/').map(decodeURIComponent);
  return ({teardown: 'teardown', tighten: 'tighten', stripe: 'final stripes', show: 'look up'})[name] +
    (joint ? ' ' + joint : '');
};

export async function home() {
  const shown = await view('/api/home');
  return () => {
    if (shown.refused) return [make('h1', {}, 'Home'), make('p', {class: 'refused'}, shown.refused)];
    const {status, joints} = shown;
    const next = status.next;
    const page = next.command && pageOf(next.command);
    const byJoint = new Map(status.joints.map((joint) => [joint.joint, joint]));
    return [
      make('h1', {}, shown.machine),
      make('p', {class: 'do'}, status.finished ? 'Finished: nothing is open.'
        : next.why || 'Nothing is open that is done here.'),
      page && make('a', {class: 'button key', href: page, 'data-key': 'next'}, 'Go on: ' + labelOf(page)),
      !page && next.command &&
        make('p', {class: 'warn'}, 'At the terminal: boltwitness ' + next.command),
      next.wrench && make('p', {}, 'Wrench: ' + next.wrench),
      make('h2', {}, 'Joints'),
      make('ul', {class: 'list'}, joints.map((joint) => {
        const how = byJoint.get(joint.joint) || {};
        return make('li', {}, make('a', {
          class: 'button', href: '#/joint/' + encodeURIComponent(joint.joint)},
          make('b', {}, joint.joint), make('span', {}, joint.holds),
          make('span', {class: 'soft'}, how.next || `${joint.apart} of ${joint.count} apart`)));
      })),
      status.open.length > 0 && make('h2', {}, 'Open'),
      list(status.open.slice(0, 12).map((point) =>
        (point.joint && !point.says.startsWith(point.joint) ? point.joint + ': ' : '') + point.says)),
      status.open.length > 12 && make('p', {class: 'soft'}, `and ${status.open.length - 12} more`),
      ...photographsOf('machine', shown.photographs)
    ];
  };
}

// One joint, and what can be done of it here.
export async function joint(code) {
  const shown = await view('/api/home');
  return () => {
    const how = shown.refused ? null : shown.status.joints.find((each) => each.joint === code);
    if (!how) {
      return [make('h1', {}, code),
        make('p', {class: 'refused'}, shown.refused || `${code} is not in this logbook.`)];
    }
    const what = shown.joints.find((each) => each.joint === code);
    const to = (page, label, look = '') => make('a', {
      class: 'button key second' + look, href: `#/${page}/${encodeURIComponent(code)}`}, label);
    return [
      make('h1', {}, code, make('span', {class: 'place'}, ' ' + what.holds)),
      make('p', {}, what.kind),
      large('apart', `${what.apart} of ${what.count}`),
      make('p', {}, `final value ${how.final_value}, striped ${how.striped} of ${how.count}` +
        (how.where ? `; where: ${how.where}` : '')),
      how.see_to && make('p', {class: 'warn'}, 'See to ' + how.see_to),
      make('div', {class: 'keys'}, to('teardown', 'Teardown'), to('tighten', 'Tighten'),
        to('show', 'Look up'), make('a', {class: 'button key second', href: '#/stripe'}, 'Stripe'),
        to('photographs', 'Photographs', ' whole'))
    ];
  };
}
