// Package cyclebars draws the barlines of a section by the cycles of one of its
// layers: each cycle is a bar, or several equal ones. It needs the score alone, and
// knows nothing of what is written in the bars.
package cyclebars
