// Package facts writes what analysis found as JSON, for programs. It computes
// nothing musical.
//
// A function makes the fields of each kind of object: key, meaning and value in one row.
// These rows are the JSON and its documentation: TestKeysAreDocumented compares
// cmd/tieover/help/json.md with them, and with -update writes it. To add a key: one
// row.
//
// What grows with the section is a list that is written while it is walked.
package facts
