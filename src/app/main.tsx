import { render } from 'solid-js/web';
import { openShelf } from '../storage/index.ts';
import { App } from './app.tsx';
import { keepForOffline } from './offline.ts';

const place = document.getElementById('app');
if (!place) throw new Error('The page has no element with the id "app".');

const shelf = await openShelf();
render(() => <App shelf={shelf} />, place);

if (import.meta.env.PROD) keepForOffline(() => undefined);
