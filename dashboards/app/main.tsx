import { render } from 'preact';
import '../common/tokens.css';
import './app.css';
import { App } from './App.tsx';

render(<App />, document.getElementById('screen')!);
