// Package play turns a piece into what is heard: for every layer a stream of
// sounding events with exact onsets and lengths, how loud and from where, and
// for the piece its tempos, meters and markers. MIDI and the page play from it
// and decide nothing of their own.
//
// layout/play makes a Performance: passes (repeats played out), voices (layers of one name
// through all sections), tempos, meters, keys, markers, clicks. Everything is streamed;
// Voice.Events reuses its event. Laws: events of a voice come in time order; a
// piece with staccato or grace notes has a finer grid, so that halves are whole; a voice's keys are
// unique within an event; the pass at Start lasts to the end of its last bar. MIDI and the
// page take sounds from here and decide none. Loudness: score/dynamic.go (own choice, from the
// standard's forte), which MusicXML reads too.
package play
