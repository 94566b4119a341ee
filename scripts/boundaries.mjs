/**
 * Who may import whom. npm workspaces and the compiler do not enforce it: everything is hoisted into one folder.
 * The rules are data below; docs/decisions/0004-boundaries-by-text.md says why they are read from the text.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { importsOf, impuritiesOf } from './source-tokens.mjs';
import { listFiles, readTextOr, root, shown } from './tools.mjs';

/** For each package: which of ours it may import. Apps may import every package, and no other app. @type {Record<string, readonly string[]>} */
const mayImport = {
  quantities: [],
  engine: [],
  work: [],
  files: ['quantities'],
  drawing: ['quantities'],
  design: ['quantities', 'files', 'engine'],
  verdict: ['design', 'engine', 'quantities'],
  records: ['verdict'],
  studies: ['verdict'],
  field: ['verdict', 'records'],
};

/** Packages that stand on nothing: not even on a general library. */
const withoutLibraries = new Set(['quantities', 'engine', 'work']);

/** Where Node's own modules may be used: everything else also runs in the browser. */
const nodeAllowed = /^apps\/cli\//;

/** Engine folders, from left to right; folders of one group do not import each other. */
const engineOrder = [
  ['math'],
  ['air', 'sun', 'shape'],
  ['section'],
  ['wing', 'drive', 'array', 'battery', 'structure', 'balance', 'light'],
  ['aeroelastic'],
  ['flight', 'bench', 'bus'],
  ['day'],
];

/** Files beside the engine's folders that any folder may use; they themselves use no folder. */
const engineCommon = new Set(['check', 'relation', 'result']);

const sourcePattern = /\.(?:[cm]?[jt]sx?)$/;
/** Tests and what only tests use: files `*.test.ts`, and folders `test` and `testing`. */
const testPattern = /\.test\.[cm]?[jt]sx?$|[\\/](?:test|testing)[\\/][^\\/]+$/;
/** Tests of a whole application: they start it as users do, by the scripts. */
const wholePattern = /^apps\/[^/]+\/e2e\//;
const builtins = new Set(builtinModules);

/** @typedef {{ kind: 'packages' | 'apps', name: string, manifest: { dependencies?: Record<string, string>, peerDependencies?: Record<string, string> } }} Member */
/** @typedef {{ base: string, file: string, path: string, member: Member, isTest: boolean, rootDependencies: ReadonlySet<string> }} Place */

/** @param {string} name */
const engineRank = (name) => engineOrder.findIndex((group) => group.includes(name));

/**
 * The engine folder of a path below packages/engine/src, or the bare name of a file beside the folders.
 * @param {string} inside for instance 'wing/lattice.ts' or 'check.js'
 */
function enginePlace(inside) {
  const [first = '', ...others] = inside.split('/');
  const bare = first.replace(sourcePattern, '');
  return { folder: others.length > 0 || engineRank(first) >= 0 ? first : undefined, bare };
}

/**
 * @param {string} from path of the importing file below the engine's src
 * @param {string} to path of the imported file or folder below the engine's src
 */
function engineOrderFault(from, to) {
  const source = enginePlace(from);
  const goal = enginePlace(to);
  if (source.folder === undefined) {
    if (!engineCommon.has(source.bare) || goal.folder === undefined) return undefined;
    return `${source.bare} stands below every engine folder and may not import "${goal.folder}"`;
  }
  if (engineRank(source.folder) < 0) return `the engine folder "${source.folder}" has no place in the order`;
  if (goal.folder === undefined) {
    return engineCommon.has(goal.bare) ? undefined : `an engine folder may not import the engine's "${goal.bare}"`;
  }
  if (goal.folder === source.folder || engineRank(goal.folder) < 0) return undefined;
  if (engineRank(goal.folder) < engineRank(source.folder)) return undefined;
  return `engine folder "${source.folder}" may not import "${goal.folder}", which is not to its left`;
}

/**
 * @param {Place} place
 * @param {string} specifier
 */
function relativeFault({ base, file, path, member, isTest }, specifier) {
  const target = shown(resolve(dirname(file), specifier), base);
  const own = `${member.kind}/${member.name}`;
  if (wholePattern.test(path) && target.startsWith('scripts/')) return undefined;
  if (target !== own && !target.startsWith(`${own}/`))
    return `a relative path may not leave ${own}: use the package name`;
  const source = 'packages/engine/src/';
  if (own !== 'packages/engine' || isTest) return undefined;
  if (!target.startsWith(source)) return 'engine sources may only import engine sources';
  return engineOrderFault(path.slice(source.length), target.slice(source.length));
}

/**
 * @param {Place} place
 * @param {string} specifier starts with '@noonwing/'
 */
function ownPackageFault({ path, member, isTest }, specifier) {
  const [name = '', ...inside] = specifier.slice('@noonwing/'.length).split('/');
  if (name === member.name && member.kind === 'packages') {
    if (name !== 'engine' || isTest) return undefined;
    return engineOrderFault(path.slice('packages/engine/src/'.length), inside.join('/') || 'index');
  }
  if (member.kind === 'apps') {
    if (mayImport[name] === undefined) return `there is no package "${name}" that an app may import`;
  } else if (!mayImport[member.name]?.includes(name)) return `package "${member.name}" may not import "${name}"`;
  return member.manifest.dependencies?.[`@noonwing/${name}`] === undefined
    ? `"@noonwing/${name}" is not among the dependencies in package.json`
    : undefined;
}

/**
 * @param {Place} place
 * @param {string} specifier
 */
function libraryFault({ path, member, isTest, rootDependencies }, specifier) {
  const isNode = specifier.startsWith('node:') || builtins.has(specifier.split('/')[0] ?? '');
  if (isNode) {
    const allowed = isTest || nodeAllowed.test(path);
    return allowed ? undefined : "Node's own modules may not be used here: this also runs in the browser";
  }
  const name = specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
  if (isTest && rootDependencies.has(name)) return undefined;
  if (member.kind === 'packages' && withoutLibraries.has(member.name)) {
    return `package "${member.name}" stands on nothing and may not import the library "${name}"`;
  }
  const { dependencies = {}, peerDependencies = {} } = member.manifest;
  return name in dependencies || name in peerDependencies
    ? undefined
    : `"${name}" is not among the dependencies in package.json`;
}

/**
 * @param {Place} place
 * @param {string | undefined} specifier
 */
function importFault(place, specifier) {
  if (specifier === undefined) {
    const mayCompute = place.isTest || place.member.kind === 'apps';
    return mayCompute ? undefined : 'a module name that is computed at run time cannot be checked';
  }
  if (/^\.{1,2}(\/|$)/.test(specifier)) return relativeFault(place, specifier);
  if (/^(?:\/|[a-z]:|file:|https?:|data:)/i.test(specifier)) return 'modules are not imported by absolute address';
  if (specifier.startsWith('#')) return 'private import names are not used here';
  if (specifier.startsWith('@noonwing/')) return ownPackageFault(place, specifier);
  return libraryFault(place, specifier);
}

/**
 * @param {string} base
 * @param {'packages' | 'apps'} kind
 * @returns {Member[]}
 */
function membersOf(base, kind) {
  if (!existsSync(join(base, kind))) return [];
  return readdirSync(join(base, kind), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => ({
      kind,
      name,
      manifest: JSON.parse(readTextOr(join(base, kind, name, 'package.json'), '{}')),
    }));
}

/**
 * @param {Place} place
 * @returns {string[]}
 */
function faultsInFile(place) {
  const text = readFileSync(place.file, 'utf8');
  const at = (/** @type {number} */ line) => `${place.path}:${line}`;
  const messages = importsOf(text).flatMap(({ specifier, line, form }) => {
    // A pattern such as '*.css' gives a type to files; it names no module.
    if (form === 'declare module' && specifier?.startsWith('*')) return [];
    const fault = importFault(place, specifier);
    return fault === undefined ? [] : [`${at(line)}: ${form} "${specifier ?? '...'}": ${fault}`];
  });
  if (place.member.kind === 'packages' && place.member.name === 'engine' && !place.isTest) {
    for (const { name, line } of impuritiesOf(text)) {
      messages.push(`${at(line)}: ${name}: the engine has neither clock nor randomness; pass it in`);
    }
  }
  return messages;
}

/**
 * Every violation below a repository root, as lines with file and line number.
 * @param {string} base
 * @returns {string[]}
 */
export function findViolations(base) {
  /** @type {{ devDependencies?: Record<string, string> }} */
  const rootManifest = JSON.parse(readTextOr(join(base, 'package.json'), '{}'));
  const rootDependencies = new Set(Object.keys(rootManifest.devDependencies ?? {}));
  return [...membersOf(base, 'packages'), ...membersOf(base, 'apps')].flatMap((member) => {
    const folder = join(base, member.kind, member.name);
    if (member.kind === 'packages' && mayImport[member.name] === undefined) {
      return [`packages/${member.name}: no rule says what this package may import (scripts/boundaries.mjs)`];
    }
    const files = listFiles(folder, (path) => sourcePattern.test(path));
    return files.flatMap((file) => {
      const path = shown(file, base);
      const isTest =
        testPattern.test(file) || wholePattern.test(path) || /(?:^|[\\/])vite\.config\.[cm]?[jt]s$/.test(file);
      return faultsInFile({ base, file, path, member, isTest, rootDependencies });
    });
  });
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const violations = findViolations(root);
  for (const violation of violations) console.error(violation);
  if (violations.length > 0) process.exitCode = 1;
}
