// Command tieover turns a section spec into notation: see README.md.
//
// build --watch and serve (cmd/tieover): make a watcher before the specs are read and
// follow after, so that nothing saved meanwhile is missed; it polls contents every 150 ms
// (works on every file system, with editors that replace files) and tells of a change once
// two looks in turn saw the same, so that a file emptied before it is written is not
// built. viewer answers / and /changes, GET and HEAD, under 127.0.0.1:PORT and
// localhost:PORT only, 403, 404 or 405 otherwise; /changes is an event stream that names
// the newest page; a page that is not it reloads, so no change between loading and
// listening is lost.
//
// Laws: memory does not grow with length (TestMemoryWhateverTheLength); bytes do not
// depend on processors (TestBytesWhateverTheProcessors); files go through batch (files.go)
// only: written under a temporary name, synced, all targets looked at again, then renamed.
// A folder's manifest (manifest.go) lists the sums of what was written there; a target
// that has neither its listed sum nor its new one stops the batch. Before the first
// rename the manifest has old and new sums, afterwards the new ones, so that a program
// killed in between vouches for both; a lock on the folder keeps commands that run at once
// from losing each other's lines.
// Once renaming began no signal stops it; if a rename fails midway the message says how
// many files are already new. A process killed outright leaves .tieover-* files, never
// half a file under its name. Outside a batch signals have their usual effect; in one they
// stop it at once, whatever is being computed (unlessStopped: what runs on is left behind,
// and what it writes is lost). Work over two seconds is told of on a terminal (progress).
// No test compares wall-clock times tightly.
package main
