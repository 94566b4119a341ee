import type { ReactNode } from 'react';
import { Button, Panel, useServices } from '../../kit/index.js';
import styles from '../design.module.css';
import { FieldGroup } from '../group.js';
import { LeversHere } from '../payoffs.js';
import { useDesignReading, useEdit, useKeys } from '../use-design.js';
import { structureStart } from './start.js';

/** How it gets into the air. */
export function LaunchPanel(): ReactNode {
  return (
    <Panel
      level={3}
      title="How does it get into the air?"
      finding="By hand or on a line: what is left open is told for both, with what is assumed."
    >
      <FieldGroup path="launch" />
    </Panel>
  );
}

/** Every key of the structure of each surface; one that is not described offers a start. */
export function EditPanel(): ReactNode {
  const surfaces = useKeys('surfaces');
  return (
    <Panel
      level={3}
      title="Describe it"
      finding="Core, skins, spars, ribs, cells and controls of each surface. Materials are those of the parts library: typical, until a load test says more."
    >
      <LeversHere paths={['surfaces', 'masses']} />
      <div className={styles.entries}>
        {surfaces.map((name) => (
          <SurfaceStructure key={name} name={name} />
        ))}
      </div>
    </Panel>
  );
}

function SurfaceStructure({ name }: { readonly name: string }): ReactNode {
  const path = `surfaces.${name}.structure`;
  const written = useKeys(path);
  const { aircraft } = useDesignReading();
  const surface = aircraft?.surfaces.find((one) => one.name === name);
  if (written.length === 0)
    return surface?.role === 'fin' ? null : <Start name={name} construction={surface?.construction ?? 'foam'} />;
  return (
    <div className={styles.entry}>
      <h4 className={styles.entriesTitle}>{name}</h4>
      <FieldGroup path={path} />
    </div>
  );
}

/** The way in: usual materials for how the surface is built, to be changed. */
function Start({ name, construction }: { readonly name: string; readonly construction: string }): ReactNode {
  const { app } = useServices();
  const { setValues, problem } = useEdit();
  const edits = structureStart(`surfaces.${name}.structure`, construction);
  const start = () => {
    if (setValues(edits, `describe the structure of ${name}`))
      app.setUi({ focus: { file: 'design', path: edits[0]!.path } });
  };
  return (
    <div className={styles.entry}>
      <h4 className={styles.entriesTitle}>{name}</h4>
      <p className={styles.soft}>
        {`Nothing is said of its structure: one is assumed from how it is built (${construction}). Enter what fills it, its skins, its spars with material and size, its ribs, and how cells are joined.`}
      </p>
      <div>
        <Button onPress={start}>{`Describe the structure of ${name}`}</Button>
      </div>
      {problem !== undefined && <p className={styles.problem}>{problem}</p>}
    </div>
  );
}
