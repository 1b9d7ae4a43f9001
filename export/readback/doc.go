// Package readback writes what was found in notation that was read back: the patterns
// that find describes, and the differences that verify sees, in words and as JSON.
// Version 1 of the JSON only ever gains fields.
package readback
