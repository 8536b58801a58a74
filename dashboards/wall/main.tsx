import { render } from 'preact';
import '../common/tokens.css';
import './wall.css';
import { keepScreensOffline } from '../offline/register.ts';
import { Wall } from './Wall.tsx';

keepScreensOffline();
render(<Wall />, document.getElementById('screen')!);
