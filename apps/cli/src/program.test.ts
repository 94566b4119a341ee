import { describe, expect, it } from 'vitest';
import { runCli } from './testing/run-cli.js';

const names = ['new', 'check', 'balance', 'power', 'limits', 'day', 'levers', 'array', 'ledger', 'figure', 'schema'];

describe('program', () => {
  it('names every command in its help, with exit codes', async () => {
    const { code, out } = await runCli(['--help']);
    expect(code).toBe(0);
    for (const name of names) expect(out).toMatch(new RegExp(`^ {2}${name}\\b`, 'm'));
    expect(out).toContain('Exit codes');
  });

  it.each(names)('%s --help shows an example that names the command', async (name) => {
    for (const argv of [
      [name, '--help'],
      ['help', name],
    ]) {
      const { code, out } = await runCli(argv);
      expect(code).toBe(0);
      expect(out).toMatch(new RegExp(`Examples?:\\n {2}noonwing ${name}`));
    }
  });

  it('calls wrong usage wrong usage', async () => {
    for (const argv of [[], ['dya'], ['day'], ['day', 'a', '--colour'], ['schema', 'plan'], ['--frobnicate']]) {
      expect([argv, (await runCli(argv)).code]).toEqual([argv, 2]);
    }
    expect((await runCli(['dya'])).err).toContain('day');
  });

  it('prints the version', async () => {
    expect(await runCli(['--version'])).toMatchObject({ code: 0, out: '0.1.0' });
  });

  it('prints both schemas as JSON Schema', async () => {
    for (const which of ['design', 'day']) {
      const schema = JSON.parse((await runCli(['schema', which])).out);
      expect(schema.type).toBe('object');
      expect(schema.properties.noonwing).toBeDefined();
    }
  });
});
