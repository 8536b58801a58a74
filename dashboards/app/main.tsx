import { render } from 'preact';
import '../common/tokens.css';
import './app.css';
import { keepScreensOffline } from '../offline/register.ts';
import { App } from './App.tsx';
import { openOutbox } from './pile/press/outbox.ts';

keepScreensOffline();
openOutbox();
render(<App />, document.getElementById('screen')!);
