import { useMemo } from 'react';
import { FoundFilms } from '../../ui/opening/FoundFilms.tsx';
import type { Found } from '../../ui/opening/found.ts';
import type { Shell } from '../shell.ts';
import { foundActions } from './found-actions.ts';

interface FoundListProps {
  readonly shell: Shell;
  readonly found: Found;
}

export default function FoundList({ shell, found }: FoundListProps) {
  const actions = useMemo(() => foundActions(shell), [shell]);
  return <FoundFilms found={found} actions={actions} />;
}
