import type { Command } from '../../core/commands.js';
import { type AppState, activeOf, type CompareSlot } from '../../core/state.js';
import { sectionsOf } from '../../core/store.js';

/** Texts of what stands beside the open aircraft; its plan is that of the open one where it has none. */
export function otherTexts(
  state: Pick<AppState, 'work'>,
  slot: CompareSlot,
): { readonly design: string; readonly plan: string } {
  if (slot.kind === 'remembered') return { design: slot.design, plan: slot.plan };
  const files = state.work.projects[slot.project]?.files;
  const own = slot.plan === undefined ? undefined : files?.[slot.plan];
  return { design: files?.[slot.design] ?? '', plan: own ?? activeOf(state).plan ?? '' };
}

/**
 * Commands that exchange the two: another design is opened and the open one stands beside it; a remembered state is brought
 * back into the files and what they said is remembered. The first begins a step of the history, the others belong to it.
 * now - clock [ms]
 */
export function swapCommands(state: Pick<AppState, 'work'>, slot: CompareSlot, now: number): readonly Command[] {
  const { project, designPath, planPath, design, plan } = activeOf(state);
  if (project === undefined || designPath === undefined || design === undefined) return [];
  if (slot.kind === 'design') {
    const beside: Command = {
      kind: 'compare',
      slot: {
        kind: 'design',
        project: project.id,
        design: designPath,
        ...(planPath === undefined ? {} : { plan: planPath }),
      },
    };
    return [
      beside,
      ...(slot.project === project.id ? [] : [{ kind: 'select project', project: slot.project } as const]),
      { kind: 'select design', path: slot.design },
      ...(slot.plan === undefined ? [] : [{ kind: 'select plan', path: slot.plan } as const]),
    ];
  }
  const remembered: CompareSlot = {
    kind: 'remembered',
    label: 'before the exchange',
    design,
    plan: plan ?? '',
    sections: sectionsOf(project),
    at: now,
  };
  const label = 'exchange with the remembered state';
  return [
    { kind: 'compare', slot: remembered },
    { kind: 'set text', path: designPath, text: slot.design, label },
    ...(planPath === undefined || slot.plan === ''
      ? []
      : [{ kind: 'set text', path: planPath, text: slot.plan, label } as const]),
  ];
}
