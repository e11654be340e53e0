/** One step of a pattern. `folders` and `inside` stand for `**` and a slash: any folders, or none. */
type Step = { readonly kind: 'one' | 'name' | 'path' | 'folders' | 'inside' } | { readonly letter: string };

const FOLDERS: readonly Step[] = [{ kind: 'folders' }, { kind: 'inside' }];

const stepOf = (found: string): readonly Step[] => {
  switch (found) {
    case '**/':
      return FOLDERS;
    case '**':
      return [{ kind: 'path' }];
    case '*':
      return [{ kind: 'name' }];
    case '?':
      return [{ kind: 'one' }];
    default:
      return [{ letter: found }];
  }
};

/** Add a step, and those that may follow it without a letter in between, to those that may come next. */
const enter = (steps: readonly Step[], at: number, into: Uint8Array): void => {
  for (let i = at; i <= steps.length && into[i] === 0; ) {
    into[i] = 1;
    const step = steps[i];
    if (step === undefined || 'letter' in step || step.kind === 'one' || step.kind === 'inside') return;
    if (step.kind === 'folders') into[i + 1] = 1;
    i += step.kind === 'folders' ? 2 : 1;
  }
};

/**
 * Whether a log is one of those that a pattern names: `*` stands for any characters of a name, `**` for any
 * folders, `?` for one character. Without a slash only the name counts, whatever the folder. The time it takes grows
 * with the length of both, whatever the pattern: every way to read it is followed at once (Thompson 1968).
 */
export const fitsPattern = (file: string, pattern: string): boolean => {
  const steps: readonly Step[] = [
    ...FOLDERS,
    ...(pattern.match(/\*\*\/|\*\*|[\s\S]/g) ?? []).flatMap(stepOf),
  ];
  const path = file.replaceAll('\\', '/');
  const whole = pattern.includes('/') ? path : (path.split('/').at(-1) ?? '');
  let now = new Uint8Array(steps.length + 1);
  enter(steps, 0, now);
  for (let at = 0; at < whole.length; at++) {
    const letter = whole[at]!;
    const next = new Uint8Array(steps.length + 1);
    for (let i = 0; i < steps.length; i++) {
      if (now[i] === 0) continue;
      const step = steps[i]!;
      if ('letter' in step) {
        if (step.letter === letter) enter(steps, i + 1, next);
      } else if (step.kind === 'inside') {
        next[i] = 1;
        if (letter === '/') enter(steps, i + 1, next);
      } else if (step.kind === 'path' || (step.kind === 'name' && letter !== '/')) enter(steps, i, next);
      else if (step.kind === 'one' && letter !== '/') enter(steps, i + 1, next);
    }
    now = next;
  }
  return now[steps.length] === 1;
};
