import {
  type CourseAnswer,
  type CourseQuestion,
  predictCourse,
} from '../../../shared/compost/planner/predictCourse.ts';

/** What the worker says: how far it is, then the answer, or what went wrong. */
export type CourseNews =
  | { readonly kind: 'progress'; readonly share: number }
  | { readonly kind: 'answer'; readonly answer: CourseAnswer }
  | { readonly kind: 'failed'; readonly why: string };

const tell = (news: CourseNews) => postMessage(news);

addEventListener('message', ({ data }: MessageEvent<CourseQuestion>) => {
  try {
    const work = predictCourse(data);
    let step = work.next();
    while (!step.done) {
      tell({ kind: 'progress', share: step.value });
      step = work.next();
    }
    tell({ kind: 'answer', answer: step.value });
  } catch (error) {
    tell({ kind: 'failed', why: error instanceof Error ? error.message : String(error) });
  }
});
