#!/usr/bin/env node
const version = process.versions.node;
const [major, minor] = version.split('.').map(Number);
if (major > 20 || (major === 20 && minor >= 20)) {
  require('../dist/start.cjs').start(process);
} else {
  console.error(`thole: Node.js ${version} is too old: install Node.js 20.20 or later`);
  process.exitCode = 2;
}
