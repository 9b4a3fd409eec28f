import { render } from 'solid-js/web';
import { openShelf } from '../storage/index.ts';
import { App } from './app.tsx';
import { keepForOffline } from './offline.ts';
import { isOneFile } from './tool-file.ts';

const place = document.getElementById('app');
if (!place) throw new Error('The page has no element with the id "app".');

const isKept = import.meta.env.PROD && !isOneFile;
const shelf = await openShelf();
render(() => <App shelf={shelf} {...(isKept ? { keepForOffline } : {})} />, place);
