#!/usr/bin/env node
process.stderr.write('fanwise: no command can run yet\n');
process.exitCode = 2;
