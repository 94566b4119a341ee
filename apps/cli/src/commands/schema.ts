import { dayPlanJsonSchema, designJsonSchema } from '@noonwing/design';
import { type CommandModule, exampleText } from '../command.js';
import { exitCode } from '../exit.js';
import { jsonText } from '../output/json.js';

/** `noonwing schema`: for editors that complete and check YAML as it is typed. */
export const command: CommandModule = {
  describe: (of) => {
    of.argument('[file]', "which file: 'design' or 'day'", 'design').addHelpText(
      'after',
      exampleText('noonwing schema design > noonwing-design.schema.json', 'noonwing schema day'),
    );
  },
  run: async ({ args }, terminal) => {
    const which = args[0] ?? 'design';
    if (which !== 'design' && which !== 'day') {
      terminal.note(`found "${which}"; expected 'design' or 'day'`);
      return exitCode.wrongUsage;
    }
    terminal.out(jsonText(which === 'design' ? designJsonSchema() : dayPlanJsonSchema()));
    return exitCode.answer;
  },
};
