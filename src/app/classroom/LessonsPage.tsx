import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { factsOf, type Lesson } from '../../classroom/lessons/lesson.ts';
import { LESSONS } from '../../classroom/lessons/lessons.ts';
import { LessonList } from '../../ui/classroom/LessonList.tsx';
import { LessonSheet } from '../../ui/classroom/LessonSheet.tsx';
import { PreviewFilm } from './PreviewFilm.tsx';
import type { Room } from './room.ts';
import { beginExercise } from './room-actions.ts';
import { usePreview } from './use-preview.ts';

export function LessonsPage({ room }: { readonly room: Room }) {
  const lessonId = useStore(room.store, (state) => state.lessonId);
  const attempts = useStore(room.store, (state) => state.attempts);
  const index = LESSONS.findIndex(({ id }) => id === lessonId);
  const lesson = LESSONS[index];
  const done = useMemo(() => {
    const measured = new Set(attempts.map(({ exerciseId }) => exerciseId));
    return new Set(
      LESSONS.filter(({ task }) => task.kind === 'measure' && measured.has(task.exercise.id)).map(
        ({ id }) => id,
      ),
    );
  }, [attempts]);
  const open = (id: string | null) => room.store.setState({ lessonId: id });
  if (lesson === undefined) return <LessonList lessons={LESSONS} done={done} onOpen={open} />;
  const next = LESSONS[index + 1];
  return (
    <OpenLesson
      key={lesson.id}
      room={room}
      lesson={lesson}
      number={index + 1}
      onBack={() => open(null)}
      onNext={next === undefined ? null : () => open(next.id)}
    />
  );
}

interface OpenLessonProps {
  readonly room: Room;
  readonly lesson: Lesson;
  readonly number: number;
  readonly onBack: () => void;
  readonly onNext: (() => void) | null;
}

function OpenLesson({ room, lesson, number, onBack, onNext }: OpenLessonProps) {
  const { look, task } = lesson;
  const [spec, setSpec] = useState(look.spec);
  useEffect(() => setSpec(look.spec), [look]);
  const preview = usePreview(room, spec, look.filmSeed);
  const { made } = preview;
  return (
    <LessonSheet
      lesson={lesson}
      number={number}
      spec={spec}
      onSpec={setSpec}
      picture={
        <PreviewFilm
          preview={preview}
          axesOf={look.ray}
          description={`Invented film for “${lesson.title}”`}
        />
      }
      facts={made === null ? [] : factsOf(made.truth, look.ray, look.facts)}
      onMeasure={() => {
        if (task.kind === 'measure') beginExercise(room, task.exercise, `lesson: ${lesson.title}`);
      }}
      onBack={onBack}
      onNext={onNext}
    />
  );
}
