// Package found says which section spec has the music that was found: which
// lines a score's parts hold, on which instruments, in which bars, how they
// meet, and the text of the spec itself.
package found
