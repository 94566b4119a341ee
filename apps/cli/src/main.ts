process.stdout.write('noonwing\n');
