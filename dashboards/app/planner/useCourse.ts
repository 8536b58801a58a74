import { useEffect, useState } from 'preact/hooks';
import type { CourseAnswer, CourseQuestion } from '../../../shared/compost/planner/predictCourse.ts';
import type { CourseNews } from './courseWorker.ts';
import { heatWords } from './heatWords.ts';

export interface CourseState {
  /** 0..1 while it runs. */
  readonly progress: number | null;
  readonly answer: CourseAnswer | null;
  readonly failure: string | null;
}

const waiting: CourseState = { progress: 0, answer: null, failure: null };
/** Typing settles before a worker is set to it. */
const settleMs = 350;

/** Runs a question in a worker, so that the page stays live; a newer question ends the older one's worker. */
export function useCourse(question: CourseQuestion | null): CourseState {
  const [state, setState] = useState<CourseState>(waiting);
  const asked = JSON.stringify(question);
  useEffect(() => {
    setState(waiting);
    if (question === null) return undefined;
    let worker: Worker | null = null;
    const timer = setTimeout(() => {
      worker = new Worker(new URL('./courseWorker.ts', import.meta.url), { type: 'module' });
      worker.addEventListener('message', ({ data }: MessageEvent<CourseNews>) => {
        if (data.kind === 'progress') setState({ ...waiting, progress: data.share });
        else if (data.kind === 'answer') setState({ progress: null, answer: data.answer, failure: null });
        else setState({ progress: null, answer: null, failure: data.why });
      });
      worker.addEventListener('error', ({ message }) =>
        setState({ progress: null, answer: null, failure: message || heatWords.workerEnded }),
      );
      worker.postMessage(question);
    }, settleMs);
    return () => {
      clearTimeout(timer);
      worker?.terminate();
    };
  }, [asked]);
  return state;
}
