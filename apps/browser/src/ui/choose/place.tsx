import { type DragEvent, type ReactNode, useState } from 'react';
import { canOpenFolders } from '../../core/can-open-folders.js';
import type { Example, Project } from '../../core/project.js';
import { pathsOfRole } from '../../core/project.js';
import { recentProjects } from '../../core/state.js';
import { Button } from '../kit/button.js';
import { Select } from '../kit/fields.js';
import { useAppState, useServices } from '../kit/services.js';
import { Disclosure, Panel } from '../kit/surfaces.js';
import { openDialog, useOpen } from '../shell/open-state.js';
import styles from './choose.module.css';
import { NewAircraft } from './new-aircraft.js';

const files = () => import('../shell/files.js');

/** Projects on this device, the examples, a new aircraft, and the ways in for files. */
export default function Choose(): ReactNode {
  return (
    <div className={styles.choose}>
      <div>
        <Projects />
      </div>
      <div className={styles.beside}>
        <NewAircraft />
      </div>
      <div>
        <Examples />
        <WaysIn />
      </div>
    </div>
  );
}

function Projects(): ReactNode {
  const work = useAppState((state) => state.work);
  const ui = useAppState((state) => state.ui);
  const { projects, current } = work;
  const list = recentProjects({ work, ui });
  const open = projects[current];
  return (
    <Panel
      title="On this device"
      finding={
        list.length === 0
          ? 'Nothing is here yet: open an example, or answer the questions of a new aircraft.'
          : undefined
      }
    >
      <ul className={styles.projects}>
        {list.map((project) => (
          <ProjectRow key={project.id} project={project} isOpen={project.id === current} />
        ))}
      </ul>
      {open !== undefined && <WhichFiles project={open} />}
    </Panel>
  );
}

function ProjectRow({ project, isOpen }: { readonly project: Project; readonly isOpen: boolean }): ReactNode {
  const { app, announce } = useServices();
  const { id, name, files: texts } = project;
  const count = Object.keys(texts).length;
  const about = useAppState((state) => state.examples.find((one) => one.name === name)?.about);
  const compare = () => {
    if (project.design === undefined) return;
    const { design, plan } = project;
    app.run({
      kind: 'compare',
      slot: { kind: 'design', project: id, design, ...(plan === undefined ? {} : { plan }) },
    });
    useOpen.setState({ compare: true });
    announce(`${name} stands beside the open aircraft`);
  };
  return (
    <li className={styles.project} data-open={isOpen || undefined}>
      <div>
        <b>{name}</b>
        <p>
          {about === undefined ? '' : `${about}; `}
          {count} {count === 1 ? 'file' : 'files'}
          {isOpen ? ', open now' : ''}
        </p>
      </div>
      <div className={styles.actions}>
        {!isOpen && (
          <Button label={`Open ${name}`} onPress={() => app.run({ kind: 'select project', project: id })}>
            Open
          </Button>
        )}
        {!isOpen && project.design !== undefined && (
          <Button kind="quiet" label={`Compare with ${name}`} onPress={compare}>
            Compare
          </Button>
        )}
        <Button kind="quiet" label={`Rename ${name}`} onPress={() => openDialog({ kind: 'rename', project: id })}>
          Rename
        </Button>
        <Button kind="quiet" label={`Duplicate ${name}`} onPress={() => void app.duplicateProject(id)}>
          Duplicate
        </Button>
        <Button kind="quiet" label={`Delete ${name}`} onPress={() => openDialog({ kind: 'delete', project: id })}>
          Delete
        </Button>
      </div>
    </li>
  );
}

/** Which of several designs and days of a project is looked at. */
function WhichFiles({ project }: { readonly project: Project }): ReactNode {
  const { app } = useServices();
  const [designs, plans] = [pathsOfRole(project, 'design'), pathsOfRole(project, 'plan')];
  const choices = (paths: readonly string[]) => paths.map((path) => ({ value: path, label: path }));
  if (designs.length < 2 && plans.length < 2) return null;
  return (
    <div className={styles.pair}>
      {designs.length > 1 && (
        <Select
          label="Design looked at"
          value={project.design ?? ''}
          choices={choices(designs)}
          onChange={(path) => app.run({ kind: 'select design', path })}
        />
      )}
      {plans.length > 1 && (
        <Select
          label="Day looked at"
          value={project.plan ?? ''}
          choices={choices(plans)}
          onChange={(path) => app.run({ kind: 'select plan', path })}
        />
      )}
    </div>
  );
}

/** Examples that are not on this device; those that are stand in the list above, and a fresh copy of them is one step away. */
function Examples(): ReactNode {
  const examples = useAppState((state) => state.examples);
  const projects = useAppState((state) => state.work.projects);
  const here = new Set(Object.values(projects).map(({ name }) => name));
  const absent = examples.filter(({ name }) => !here.has(name));
  const present = examples.filter(({ name }) => here.has(name));
  return (
    <Panel
      title="Examples"
      finding={`Three candidates for counting birds on sandbanks of a river delta; invented for the demo.${absent.length === 0 ? ' All of them stand in the list above.' : ''}`}
    >
      <ExampleList examples={absent} />
      {present.length > 0 && (
        <Disclosure title="An example once more, as it was at first">
          <ExampleList examples={present} />
        </Disclosure>
      )}
    </Panel>
  );
}

function ExampleList({ examples }: { readonly examples: readonly Omit<Example, 'files'>[] }): ReactNode {
  const { app } = useServices();
  if (examples.length === 0) return null;
  return (
    <ul className={styles.projects}>
      {examples.map(({ key, name, about }) => (
        <li key={key} className={styles.project}>
          <div>
            <b>{name}</b>
            <p>{about}</p>
          </div>
          <Button label={`Open afresh: ${name}`} onPress={() => void app.openExample(key)}>
            Open afresh
          </Button>
        </li>
      ))}
    </ul>
  );
}

function WaysIn(): ReactNode {
  const services = useServices();
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    const dropped = [...event.dataTransfer.files];
    void files().then((m) => m.takeFiles(services, dropped));
  };
  return (
    <Panel title="Files of your own">
      <section
        aria-label="Drop files here"
        className={styles.drop}
        data-over={over || undefined}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={drop}
      >
        <p>
          Design files and day plans (YAML), section coordinates, weather (EPW), tables (CSV), or a zip of them. Drop
          them here, or
        </p>
        <div className={styles.actions}>
          <Button onPress={() => void files().then((m) => m.importChosen(services))}>Import files or a zip</Button>
          {canOpenFolders() && (
            <Button onPress={() => void import('../shell/folders.js').then((m) => m.openFolder(services))}>
              Open a folder in place
            </Button>
          )}
          <Button onPress={() => void files().then((m) => m.exportZip(services))}>Save a copy as zip</Button>
        </div>
        <p>They stay on this device: nothing is sent anywhere.</p>
      </section>
    </Panel>
  );
}
