/**
 * A function whose last answer for each subject is kept and given again while everything it depends on is the
 * very same. Records are immutable, so the same record means the same content. The answers are those of the
 * function; only the time differs: while a point is dragged, every film but one is as it was.
 *
 * @param inputsOf - Everything the answer depends on beside the subject itself, in a fixed order.
 */
export function remembered<Arguments extends readonly unknown[], Answer>(
  answer: (...given: Arguments) => Answer,
  subjectOf: (...given: Arguments) => object,
  inputsOf: (...given: Arguments) => readonly unknown[],
): (...given: Arguments) => Answer {
  const kept = new WeakMap<object, { readonly inputs: readonly unknown[]; readonly answer: Answer }>();
  return (...given) => {
    const subject = subjectOf(...given);
    const inputs = inputsOf(...given);
    const last = kept.get(subject);
    if (last?.inputs.every((input, index) => Object.is(input, inputs[index]))) return last.answer;
    const fresh = answer(...given);
    kept.set(subject, { inputs, answer: fresh });
    return fresh;
  };
}
