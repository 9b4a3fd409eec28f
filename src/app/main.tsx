import { render } from 'solid-js/web';
import { keepForOffline } from './offline.ts';

const place = document.getElementById('app');
if (!place) throw new Error('The page has no element with the id "app".');

render(
  () => (
    <main>
      <h1>Ellwand</h1>
      <p>A notebook for hand knitters' arithmetic.</p>
    </main>
  ),
  place,
);

if (import.meta.env.PROD) keepForOffline(() => undefined);
