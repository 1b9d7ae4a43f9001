// Package worksheet writes exercises and their answer key as one
// document to print, as text and as MusicXML.
//
//   - Goldens of worksheets: go test ./export/worksheet -update, then read them.
package worksheet
