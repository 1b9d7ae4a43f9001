package spec

import (
	"regexp"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/spec/grammar"
)

// take is a recording while it is read, tagged its mark.
type (
	take struct {
		score.Recording
		section *draft
	}
	tagged struct {
		score.RecordingMark
		section *draft
	}
)

func recordingKeys() []field[take] {
	return []field[take]{
		textField("file", func(t *take) *string { return &t.File }),
		{"starts", func(r *reader, n *yaml.Node, t *take) {
			if s, ok := r.seconds(n, "starts"); ok {
				at := score.Place{Pos: r.at(n), Kind: score.AtPulse, N: 1}
				t.Marks = append(t.Marks, score.RecordingMark{At: at, Seconds: s, Pos: r.at(n)})
			}
		}},
		{"marks", func(r *reader, n *yaml.Node, t *take) { r.readTags(n, t) }},
	}
}

func recordingMarkKeys() []field[tagged] {
	return []field[tagged]{
		{"at", func(r *reader, n *yaml.Node, t *tagged) {
			if p := r.planPlace(n, t.section, "at"); p != nil {
				t.At = *p
			}
		}},
		{"sounds", func(r *reader, n *yaml.Node, t *tagged) {
			t.Seconds, _ = r.seconds(n, "sounds")
			t.Pos = r.at(n)
		}},
	}
}

// readRecording reads when the section sounds in a recording.
func (r *reader) readRecording(n *yaml.Node, d *draft) {
	t := take{section: d}
	found, ok := readMap(r, n, "a recording", recordingKeys(), &t)
	if !ok {
		return
	}
	if found.lacks("starts") && found.lacks("marks") {
		r.wrong(r.at(n), "add starts: 1.283 s, when bar 1 sounds, or marks:", "the recording does not say when anything sounds")
	}
	d.Recording = &t.Recording
}

func (r *reader) readTags(n *yaml.Node, t *take) {
	if n.Kind != yaml.SequenceNode {
		r.wrong(r.at(n), "begin each with - {at: bar 9, sounds: 21.402 s}", "the marks of a recording must be a list")
		return
	}
	for _, item := range n.Content {
		m := tagged{section: t.section}
		found, ok := readMap(r, item, "a mark of a recording", recordingMarkKeys(), &m)
		if !ok {
			continue
		}
		if found.lacks("at") || found.lacks("sounds") {
			r.wrong(r.at(item), "write both, as in {at: bar 9, sounds: 21.402 s}", "a mark of a recording says where in the music and when it sounds")
			continue
		}
		t.Marks = append(t.Marks, m.RecordingMark)
	}
}

var secondsText = regexp.MustCompile(`^([0-9]{1,5})(?:\.([0-9]{1,6}))? ?s$`)

// seconds reads "1.283 s".
func (r *reader) seconds(n *yaml.Node, what string) (beat.Span, bool) {
	s, ok := r.text(n, what)
	if !ok {
		return beat.Span{}, false
	}
	m := secondsText.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		r.wrong(r.at(n), "write seconds from the recording's beginning, as in 1.283 s", "%q is no time in a recording", grammar.Shortened(s))
		return beat.Span{}, false
	}
	micro, _ := strconv.ParseInt(m[1]+(m[2] + "000000")[:6], 10, 64)
	return beat.Of(micro, 1_000_000), true
}
