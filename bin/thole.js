#!/usr/bin/env node
import { run } from '../dist/main.js';

await run(process);
