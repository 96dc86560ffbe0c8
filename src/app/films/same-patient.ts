/** What is known of whose a film is. */
interface Whose {
  readonly id: string;
  /** Equal for films of one patient; null where the file names none. */
  readonly patient: string | null;
}

export interface Patients {
  readonly differ: boolean;
  /** What to call the patient of each film by its id; empty where there is nothing to tell apart. */
  readonly names: ReadonlyMap<string, string>;
  /** Films that may be added without a question: those of the case's patient, or all where no two differ. */
  readonly unquestioned: ReadonlySet<string>;
}

/**
 * Whether films name one patient, among themselves and with the films of the case. A film that names none is no
 * contradiction, but where others contradict each other it is not taken for granted either.
 *
 * @param ofCase - Patients that films of the case name, as far as it is known.
 */
export function comparePatients(films: readonly Whose[], ofCase: ReadonlySet<string>): Patients {
  const named = [...new Set(films.flatMap(({ patient }) => (patient === null ? [] : [patient])))];
  const strangers = named.filter((patient) => !ofCase.has(patient));
  const differ = named.length > 1 || (ofCase.size > 0 && strangers.length > 0);
  if (!differ) return { differ, names: new Map(), unquestioned: new Set(films.map(({ id }) => id)) };
  const nameOf = (patient: string | null) =>
    patient === null
      ? 'names no patient'
      : ofCase.has(patient)
        ? 'the patient of this case'
        : `patient ${letter(strangers.indexOf(patient))}`;
  return {
    differ,
    names: new Map(films.map(({ id, patient }) => [id, nameOf(patient)])),
    unquestioned: new Set(
      films.filter(({ patient }) => patient !== null && ofCase.has(patient)).map(({ id }) => id),
    ),
  };
}

/** A, B, … Z, then numbers. */
const letter = (index: number): string => (index < 26 ? String.fromCharCode(65 + index) : `${index + 1}`);
