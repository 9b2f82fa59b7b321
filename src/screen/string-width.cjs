/** Stands in the bundle for what Ink measures text with: a text is as wide as the screens count it. */
module.exports = require('./inert.ts').columnsOf;
