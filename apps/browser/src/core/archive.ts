import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { acceptFile, acceptName, greatestFile } from './names.js';
import type { Project } from './project.js';

/** A file that was not taken, and why. */
export interface Refused {
  readonly name: string;
  readonly reason: string;
  readonly remedy: string;
}

export interface Imported {
  /** Texts by path, names made acceptable. */
  readonly files: Readonly<Record<string, string>>;
  readonly refused: readonly Refused[];
}

/** More than this is no project of one aircraft. */
const mostFiles = 500;
/** Unpacked sizes are stated in a zip and can be checked before anything is unpacked [bytes]. */
const greatestTotal = 64_000_000;

/** What systems add to folders and archives. */
const ignored = /(^|\/)(\.|__MACOSX\/|Thumbs\.db$|desktop\.ini$)/i;

/** A project as one zip; times are left at the format's first year, so that the same project gives the same bytes. */
export function zipProject(project: Pick<Project, 'files'>): Uint8Array {
  const entries = Object.entries(project.files).map(([path, text]) => [path, strToU8(text)] as const);
  return zipSync(Object.fromEntries(entries), { level: 6, mtime: new Date(1980, 0, 1, 12) });
}

export const zipName = (project: Pick<Project, 'name'>): string => `${acceptName(project.name, 'project')}.zip`;

const isZip = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && (bytes[2] === 3 || bytes[2] === 5);

/** The longest folder that all paths share, with its slash: an archive often holds one folder with everything in it. */
function commonFolder(paths: readonly string[]): string {
  const folders = paths.map((path) => path.slice(0, path.lastIndexOf('/') + 1));
  let common = folders[0] ?? '';
  for (const folder of folders) {
    while (!folder.startsWith(common)) common = common.slice(0, common.lastIndexOf('/', common.length - 2) + 1);
  }
  return common;
}

function unpacked(name: string, bytes: Uint8Array): { entries: Record<string, Uint8Array>; refused: Refused[] } {
  const refused: Refused[] = [];
  let total = 0;
  let count = 0;
  try {
    const entries = unzipSync(bytes, {
      filter: (file) => {
        if (file.name.endsWith('/') || ignored.test(file.name)) return false;
        count += 1;
        total += file.originalSize;
        const fits = file.originalSize <= greatestFile && total <= greatestTotal && count <= mostFiles;
        if (!fits) {
          refused.push({
            name: acceptName(file.name),
            reason: count > mostFiles ? `there are more than ${mostFiles} files` : 'it is too large',
            remedy: 'pack only the files of one aircraft',
          });
        }
        return fits;
      },
    });
    return { entries, refused };
  } catch (error) {
    const reason = `the archive cannot be unpacked: ${error instanceof Error ? error.message : error}`;
    return { entries: {}, refused: [{ name: acceptName(name), reason, remedy: 'pack it again as zip' }] };
  }
}

/** Files as they were chosen or dropped: texts, and zips with texts in them. Nothing of them is run or shown as markup. */
export function importFiles(chosen: readonly { readonly name: string; readonly bytes: Uint8Array }[]): Imported {
  const files: Record<string, string> = {};
  const refused: Refused[] = [];
  const take = (name: string, bytes: Uint8Array) => {
    const checked = acceptFile(name, bytes);
    if (!checked.ok) refused.push({ name: acceptName(name), reason: checked.reason, remedy: checked.remedy });
    else if (Object.keys(files).length >= mostFiles) {
      refused.push({ name: acceptName(name), reason: `more than ${mostFiles} files`, remedy: 'take fewer' });
    } else files[acceptName(name)] = checked.text;
  };
  for (const { name, bytes } of chosen) {
    if (!isZip(bytes)) {
      take(name, bytes);
      continue;
    }
    const { entries, refused: left } = unpacked(name, bytes);
    refused.push(...left);
    const folder = commonFolder(Object.keys(entries));
    for (const [path, content] of Object.entries(entries)) take(path.slice(folder.length), content);
  }
  return { files, refused };
}

/** One text as bytes, for a download. */
export const fileBytes = (text: string): Uint8Array => strToU8(text);
export const bytesText = (bytes: Uint8Array): string => strFromU8(bytes);
