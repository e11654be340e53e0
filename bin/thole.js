#!/usr/bin/env node
var version = process.versions.node.split('.').map(Number);
if (version[0] > 20 || (version[0] === 20 && version[1] >= 20)) {
  require('../dist/start.cjs').start(process);
} else {
  console.error('thole: Node.js ' + process.versions.node + ' is too old: install Node.js 20.20 or later');
  process.exitCode = 2;
}
