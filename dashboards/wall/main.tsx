import { render } from 'preact';
import '../common/tokens.css';
import './wall.css';
import { Wall } from './Wall.tsx';

render(<Wall />, document.getElementById('screen')!);
