import { runProgram } from './program.js';
import { processTerminal } from './terminal.js';

// A reader that stops early (`| head`) is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});

process.exitCode = await runProgram(process.argv.slice(2), processTerminal());
