// The address after "#" names the screen: #/, #/record/oil-drained, #/cylinders/n1 …

/** {name, argument} of the present address. */
export function route() {
  const [name = '', ...rest] = location.hash.replace(/^#\/?/, '').split('/');
  return { name: name || 'home', argument: decodeURIComponent(rest.join('/')) };
}

let before = '#/';
window.addEventListener('hashchange', (event) => {
  const { hash } = new URL(event.oldURL);
  if (!hash.startsWith('#/emergency')) before = hash || '#/';
});

/** The address from which the emergency page was opened. */
export const addressBefore = () => before;

/** Goes to another screen. */
export function go(path) {
  location.hash = `#/${path}`;
}
