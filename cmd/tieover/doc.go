// Command tieover turns a section spec into notation: see README.md.
//
// build --watch and serve (cmd/tieover): make a watcher before the specs are read and
// follow after, so that nothing saved meanwhile is missed; it polls contents every 150 ms
// (works on every file system, with editors that replace files) and reports a change once
// two looks in a row saw the same, so that a file emptied before it is written is not
// built. viewer answers / and /changes, GET and HEAD, under 127.0.0.1:PORT and
// localhost:PORT only, 403, 404 or 405 otherwise; /changes is an event stream that names
// the newest page; a page that is not it reloads, so no change between loading and
// listening is lost.
//
// Laws: memory does not grow with length (TestMemoryWhateverTheLength); bytes do not
// depend on processors (TestBytesWhateverTheProcessors); files go through package files,
// all of a command or none. While it computes what it writes, a signal stops it at once
// (unlessStopped: what runs on is left behind, and what it writes is lost). On a terminal
// a line says that work goes on when it takes over two seconds (progress).
// No test compares wall-clock times tightly.
package main
