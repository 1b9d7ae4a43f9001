package lint

import (
	"strconv"
	"strings"
)

// reading is the state of a part from bar to bar.
type reading struct {
	*checker
	id        string
	divisions int64
	bar       int64 // its length in divisions
	fifths    int64
	signs     map[string]int64 // accidentals in force in the bar, by staff and line
	tied      map[string]int64 // where the notes of open ties end from the part's start, by voice and pitch
	lines     map[string]bool  // open brackets, wedges and slurs by kind and number
	now       int64            // from the bar's start
	onset     int64            // of the last note that was no further chord note
	voices    map[string]*voice
	numbers   map[string]bool
	open      map[string]*[6]bool // beams that are open, by voice and level
	strings   map[string][]int    // of staves of tablature, by number: the lowest first, in semitones from C0
}

// voice is what one voice has in the current bar.
type voice struct {
	end    int64 // up to where it is filled
	notes  []*node
	graces []*node
}

// part checks one part and returns the frames of its bars.
func (c *checker) part(p *node) []frame {
	r := &reading{checker: c, id: p.attr("id"), tied: map[string]int64{}, strings: map[string][]int{},
		lines: map[string]bool{}, numbers: map[string]bool{}, open: map[string]*[6]bool{}}
	var frames []frame
	start := int64(0)
	for i, measure := range p.all("measure") {
		c.where = r.id + " bar " + measure.attr("number") + ": "
		frames = append(frames, frameOf(measure))
		if r.numbers[measure.attr("number")] {
			c.report("the number is used twice")
		}
		r.numbers[measure.attr("number")] = true
		if i == 0 {
			r.firstBar(measure)
		}
		start += r.measure(measure, start)
	}
	r.beamsEnd()
	for key := range r.tied {
		c.report("a tie of %s never ends", key)
	}
	c.allEnd(r.lines)
	return frames
}

func (r *reading) firstBar(measure *node) {
	a := measure.at("attributes")
	for _, name := range []string{"divisions", "key", "time", "clef"} {
		if a == nil || !a.has(name) {
			r.report("the first bar has no %s", name)
		}
	}
}

// measure reads a bar and returns its length.
func (r *reading) measure(measure *node, start int64) (full int64) {
	r.now, r.voices, r.signs = 0, map[string]*voice{}, map[string]int64{}
	if measure.attr("non-controlling") != "" {
		r.report("bars of unequal length are read by few")
	}
	rehearsals := 0
	for _, e := range measure.Children {
		switch e.name() {
		case "attributes":
			r.attributes(e)
		case "note":
			r.note(e, start)
		case "backup":
			d, _ := e.whole("duration")
			r.now -= d
			if d <= 0 || r.now < 0 {
				r.report("backup by %d leads before the bar", d)
			}
		case "forward":
			d, _ := e.whole("duration")
			r.now += d
		case "direction":
			r.direction(e)
			rehearsals += len(e.at("direction-type").all("rehearsal"))
		}
	}
	if rehearsals > 1 {
		r.report("%d rehearsal marks in one bar", rehearsals)
	}
	full = r.bar
	if measure.attr("number") == "0" && measure.attr("implicit") == "yes" { // a pickup: all voices fill a part of its bar
		full = 0
		for _, v := range r.voices {
			full = min(r.bar, max(full, v.end))
		}
	}
	for name, v := range r.voices {
		if v.end != full {
			r.report("voice %s fills %d of %d divisions", name, v.end, full)
		}
		r.beams(name, v.notes)
		r.beams("grace notes of "+name, v.graces)
		r.tuplets(name, v.notes)
	}
	if len(r.voices) == 0 {
		r.report("nothing in it")
	}
	return full
}

func (r *reading) attributes(a *node) {
	if d, ok := a.whole("divisions"); ok {
		r.divisions = d
	}
	if d := r.divisions; d < 1 || d > 16383 {
		r.report("%d divisions; 1 to 16383 are possible", d)
	}
	if f, ok := a.whole("key", "fifths"); ok {
		r.fifths = f
	}
	r.tune(a)
	if len(a.all("time")) > 1 || a.has("time") && a.at("time").attr("number") != "" {
		r.report("staves with signatures of their own")
	}
	if t := a.at("time"); t != nil {
		r.bar = r.length(t)
	}
	if a.has("measure-style", "multiple-rest") && !r.single {
		r.report("a multi-bar rest in a score of several parts")
	}
}

// length returns the length of a bar in divisions.
func (r *reading) length(t *node) int64 {
	total := int64(0)
	for i, b := range t.all("beats") {
		unit, _ := strconv.ParseInt(t.all("beat-type")[i].Text, 10, 64)
		for _, s := range strings.Split(b.Text, "+") {
			n, _ := strconv.ParseInt(s, 10, 64)
			if n < 1 || unit < 1 || 4*n*r.divisions%unit != 0 {
				r.report("%s over %d is no length", s, unit)
				return total
			}
			total += 4 * n * r.divisions / unit
		}
	}
	return total
}

func (r *reading) note(n *node, start int64) {
	if n.has("grace") {
		r.grace(n)
		return
	}
	d, ok := n.whole("duration")
	if !ok || d <= 0 {
		r.report("duration %q is not a whole number above 0", n.text("duration"))
	}
	if n.has("cue") && (n.has("tie") || n.has("instrument") || n.has("notations", "articulations")) {
		r.report("a cue note has a sound or an accent of its own")
	}
	name, v := r.voice(n)
	if n.has("chord") {
		if len(v.notes) == 0 || n.text("duration") != v.notes[len(v.notes)-1].text("duration") || n.has("beam") || n.has("notations", "tuplet") {
			r.report("a chord note lasts otherwise than the first, or has its beams or tuplets")
		}
	} else {
		if r.now != v.end {
			r.report("voice %s goes on at %d, but ended at %d", name, r.now, v.end)
		}
		r.onset = r.now
		r.now += d
		v.end = r.now
		v.notes = append(v.notes, n)
	}
	if r.now > r.bar {
		r.report("the bar is overfull: %d of %d divisions", r.now, r.bar)
	}
	r.value(n, d)
	r.sound(n)
	switch {
	case n.has("rest"):
	case r.strings[n.text("staff")] != nil:
		r.stopped(n)
	default:
		r.accidental(n)
	}
	r.ties(n, name, start+r.onset, start+r.onset+d)
	r.slurs(n)
}

// voice returns the voice of a note with its name.
func (r *reading) voice(n *node) (string, *voice) {
	name := n.text("voice")
	if r.voices[name] == nil {
		r.voices[name] = &voice{}
	}
	return name, r.voices[name]
}

// slurs checks that slurs of a number begin and end in turn.
func (r *reading) slurs(n *node) {
	for _, s := range n.inside("notations", "slur") {
		r.turn(r.lines, "slur "+s.attr("number"), s.attr("type"))
	}
}

var typeParts = map[string]int64{"breve": 0, "whole": 1, "half": 2, "quarter": 4, "eighth": 8, "16th": 16, "32nd": 32, "64th": 64, "128th": 128}

// value checks that a note lasts as long as it looks.
func (r *reading) value(n *node, duration int64) {
	if rest := n.at("rest"); rest != nil && rest.attr("measure") == "yes" {
		if duration != r.bar || n.has("type") {
			r.report("a whole-bar rest lasts %d of %d divisions, type %q", duration, r.bar, n.text("type"))
		}
		return
	}
	part := typeParts[n.text("type")]
	if part == 0 {
		r.report("note type %q", n.text("type"))
		return
	}
	top, bottom := 4*r.divisions, part
	switch len(n.all("dot")) {
	case 0:
	case 1:
		top, bottom = 3*top, 2*bottom
	default:
		r.report("double dots")
	}
	if m := n.at("time-modification"); m != nil {
		actual, _ := m.whole("actual-notes")
		normal, _ := m.whole("normal-notes")
		top, bottom = top*normal, bottom*actual
	}
	if top != duration*bottom {
		r.report("a %s with %d dots lasts %d, not %d/%d divisions", n.text("type"), len(n.all("dot")), duration, top, bottom)
	}
}
