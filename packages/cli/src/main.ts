#!/usr/bin/env node
import './optimize-later.js';
import { run } from './program.js';

process.exitCode = await run(process.argv.slice(2), process);
