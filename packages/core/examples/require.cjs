// From CommonJS: node require.cjs IN
const { readFileSync } = require('node:fs');
const { annotate, compactReport } = require('@handline/core');

const { report } = annotate(readFileSync(process.argv[2]));
const compact = JSON.stringify(compactReport(report));
console.log(`${compact.length} characters instead of ${JSON.stringify(report).length}`);
