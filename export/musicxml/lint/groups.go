package lint

import (
	"strconv"
	"strings"
)

var flags = map[string]int{"eighth": 1, "16th": 2, "32nd": 3, "64th": 4, "128th": 5}

// beams checks one voice of one bar: each level begins, goes on and ends in
// turn, every note under a beam has as many levels as flags, and a deeper level
// never runs where the first does not.
func (r *reading) beams(voice string, notes []*node) {
	open := r.open[voice]
	if open == nil {
		open = &[6]bool{}
		r.open[voice] = open
	}
	for _, n := range notes {
		if n.has("rest") {
			if n.has("beam") {
				r.report("voice %s: a beam on a rest", voice)
			}
			continue
		}
		levels := n.all("beam")
		want := flags[n.text("type")]
		if len(levels) == 0 {
			if open[1] {
				r.report("voice %s: a note without a beam under an open one", voice)
				*open = [6]bool{}
			}
			continue
		}
		if len(levels) != want {
			r.report("voice %s: %d beams on a %s", voice, len(levels), n.text("type"))
		}
		before := open[1]
		for i, b := range levels {
			level := i + 1
			if b.attr("number") != strconv.Itoa(level) || level >= len(open) {
				r.report("voice %s: beam number %s as the %d. of a note", voice, b.attr("number"), level)
				return
			}
			r.beam(voice, level, b.Text, before, open)
		}
		for level := len(levels) + 1; level < len(open); level++ {
			if open[level] {
				r.report("voice %s: beam %d is left open", voice, level)
				open[level] = false
			}
		}
	}
	if !r.overBarlines {
		r.beamsEnd()
	}
}

// beamsEnd reports the beams that are still open.
func (r *reading) beamsEnd() {
	for voice, open := range r.open {
		for level, is := range open {
			if is {
				r.report("voice %s: beam %d is open at the barline", voice, level)
			}
		}
	}
	clear(r.open)
}

// beam checks one level of one note; before says that a beam leads to it.
func (r *reading) beam(voice string, level int, value string, before bool, open *[6]bool) {
	wrong := false
	switch value {
	case "begin":
		wrong = open[level] || level > 1 && !open[1]
		open[level] = true
	case "continue":
		wrong = !open[level]
	case "end":
		wrong = !open[level]
		open[level] = false
	case "forward hook":
		wrong = level == 1 || open[level] || !open[1]
	case "backward hook":
		wrong = level == 1 || open[level] || !before
	default:
		wrong = true
	}
	if wrong {
		r.report("voice %s: beam %d: %q out of turn", voice, level, value)
	}
}

// tuplets checks that each opens and closes in the bar, that its notes have
// its ratio, and that no note outside has one.
func (r *reading) tuplets(voice string, notes []*node) {
	ratio := "" // of the open tuplet
	written := int64(0)
	for _, n := range notes {
		own := n.text("time-modification", "actual-notes") + ":" + n.text("time-modification", "normal-notes")
		stops := false
		for _, t := range n.inside("notations", "tuplet") {
			switch t.attr("type") {
			case "start":
				if ratio != "" {
					r.report("voice %s: a tuplet begins inside another", voice)
				}
				ratio, written = own, 0
				if t.attr("bracket") == "" || t.attr("number") == "" {
					r.report("voice %s: a tuplet leaves its bracket or number to the reader", voice)
				}
			case "stop":
				stops = true
			}
		}
		if own == ":" {
			own = ""
		}
		if own != ratio {
			r.report("voice %s: a note of ratio %q in a tuplet of %q", voice, own, ratio)
		}
		d, _ := n.whole("duration")
		written += d
		if stops {
			if ratio == "" {
				r.report("voice %s: a tuplet ends that never began", voice)
			}
			if !r.isPlain(written) {
				r.report("voice %s: a tuplet takes %d divisions, which is no plain length", voice, written)
			}
			ratio = ""
		}
	}
	if ratio != "" {
		r.report("voice %s: a tuplet is open at the barline", voice)
	}
}

// isPlain reports whether a length is a whole number of 256th notes.
func (r *reading) isPlain(length int64) bool { return 64*length%r.divisions == 0 }

// ties checks that tie and tied agree, that each tie leads to the same pitch
// in the same voice at once, and that only beginnings are accented.
func (r *reading) ties(n *node, voice string, from, to int64) {
	if n.has("cue") { // its ties are signs alone
		return
	}
	sounds, signs := typesOf(n.all("tie")), typesOf(n.inside("notations", "tied"))
	if sounds["start"] != signs["start"] || sounds["stop"] != signs["stop"] {
		r.report("tie and tied differ")
	}
	key := "voice " + voice + " " + pitchOf(n)
	end, was := r.tied[key]
	if sounds["stop"] {
		if !was || end != from {
			r.report("%s: a tie ends where none leads", key)
		}
		if n.has("notations", "articulations") {
			r.report("%s: an articulation on a note that is held", key)
		}
		delete(r.tied, key)
	} else if was && end <= from {
		r.report("%s: a tie leads to a note that is struck", key)
		delete(r.tied, key)
	}
	if sounds["start"] {
		r.tied[key] = to
	}
}

// typesOf are the types of ties that a note has.
func typesOf(ties []*node) map[string]bool {
	types := map[string]bool{}
	for _, t := range ties {
		types[t.attr("type")] = true
	}
	return types
}

func pitchOf(n *node) string {
	if p := n.at("pitch"); p != nil {
		return p.text("step") + p.text("alter") + "/" + p.text("octave")
	}
	if u := n.at("unpitched"); u != nil {
		return n.at("instrument").attr("id") + "/" + u.text("display-step") + u.text("display-octave")
	}
	return "rest"
}

// accidental checks that each pitch reads as it sounds: by the sign before it,
// or the one before on the same line in the bar, or the key. A held note prints
// none and changes nothing.
func (r *reading) accidental(n *node) {
	p := n.at("pitch")
	if p == nil {
		return
	}
	alter, _ := p.whole("alter")
	line := n.text("staff") + p.text("step") + p.text("octave")
	sign := n.text("accidental")
	if sign == "" && typesOf(append(n.all("tie"), n.inside("notations", "tied")...))["stop"] {
		return
	}
	if sign != "" {
		printed, known := map[string]int64{"flat-flat": -2, "flat": -1, "natural": 0, "sharp": 1, "double-sharp": 2}[sign]
		if !known || printed != alter {
			r.report("%s prints %q", pitchOf(n), sign)
		}
		r.signs[line] = alter
		return
	}
	inForce, set := r.signs[line]
	if !set {
		inForce = r.byKey(p.text("step"))
	}
	if inForce != alter {
		r.report("%s reads as altered by %d", pitchOf(n), inForce)
	}
}

// byKey returns what the key signature makes of a step.
func (r *reading) byKey(step string) int64 {
	place := int64(strings.Index("FCGDAEB", step)) // in the order of sharps
	switch {
	case len(step) != 1 || place < 0: // no step at all
		return 0
	case place < r.fifths:
		return 1
	case r.fifths < 0 && 7+r.fifths <= place:
		return -1
	}
	return 0
}

// grace checks a grace note: it has no length and no tie, and a slash if it stands
// alone.
func (r *reading) grace(n *node) {
	if r.strings[n.text("staff")] != nil {
		r.stopped(n)
		return
	}
	_, v := r.voice(n)
	if n.has("duration") || n.has("tie") || n.has("dot") || n.has("cue") {
		r.report("a grace note with a length")
	}
	if !n.has("chord") {
		v.graces = append(v.graces, n)
		if (n.at("grace").attr("slash") == "yes") == n.has("beam") {
			r.report("a grace note has a slash or beams")
		}
	}
	r.sound(n)
	r.accidental(n)
	r.slurs(n)
}
