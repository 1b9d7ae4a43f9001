package musicxml

import (
	"cmp"
	"slices"

	"tieover/score/beat"
	"tieover/score/heard"
)

// perform plays the bars that were read in their order and returns what
// sounds.
func (in *reading) perform() (*heard.Score, error) {
	in.leaveOutSecond()
	bars := 0
	for _, p := range in.parts {
		bars = max(bars, len(p.bars))
	}
	for _, p := range in.parts {
		if len(p.bars) != bars {
			in.remarks = append(in.remarks, heard.Remark{Kind: heard.Misfit, Part: p.name,
				Text: beat.Counted(len(p.bars), "bar") + ", other parts have " + beat.Counted(bars, "bar")})
		}
	}
	order, err := in.order(bars)
	if err != nil {
		return nil, err
	}
	if err := in.settleGrid(); err != nil {
		return nil, err
	}
	grid := beat.Grid(in.grid)
	spans := in.barSpans(bars)
	score := &heard.Score{Title: in.title, Extract: in.extract}
	cues := in.leaveOutCues()
	var sounds []ringing
	var notes []readNote
	for i, p := range in.parts {
		lengths := spans.part(i)
		stage := &stage{grid: grid, part: p, out: score, in: in, sounds: sounds[:0], notes: notes}
		part, err := stage.play(order, lengths)
		if err != nil {
			return nil, err
		}
		sounds, notes = stage.sounds, stage.notes // room for the next part
		p.bars = nil                              // what has been played is not needed as it was written
		if !cues[p] {
			score.Parts = append(score.Parts, part)
		}
	}
	slices.SortStableFunc(score.Marks, func(a, b heard.Mark) int { return a.At.Cmp(b.At) })
	score.Remarks = in.remarks
	return score, nil
}

// stage plays one part.
type stage struct {
	grid beat.Grid
	part *readPart
	out  *heard.Score
	in   *reading

	sounds []ringing
	notes  []readNote       // of one bar, in order of time
	open   map[tieKey][]int // sounds that a tie goes on from
}

// ringing is one tone over all its ties, in ticks.
type ringing struct {
	readNote
	bar  string
	open bool // a tie begins at its end
}

// tieKey is where a tie must end: which tone, when.
type tieKey struct {
	tone heard.Tone
	at   int64
}

func (s *stage) play(order []turn, lengths []int64) (*heard.Part, error) {
	part := &heard.Part{ID: s.part.id, Name: s.part.name, Short: s.part.short, Clef: s.part.clef}
	for _, i := range s.part.instruments {
		part.Instruments = append(part.Instruments, i.Instrument)
	}
	s.open = map[tieKey][]int{}
	checked := make([]bool, len(lengths))
	now := int64(0)
	for _, at := range order {
		length := lengths[at.bar]
		if at.bar < len(s.part.bars) {
			bar := s.part.bars[at.bar]
			if !checked[at.bar] {
				checked[at.bar] = true
				s.checkFull(bar, length)
			}
			s.bar(bar, now)
			s.marks(bar, now)
			slices.SortStableFunc(bar.tempos, func(a, b readTempo) int { return cmp.Compare(a.at, b.at) })
			for _, t := range bar.tempos[:min(len(bar.tempos), maxNotes-len(part.Tempos))] {
				part.Tempos = append(part.Tempos, heard.Tempo{At: s.span(now + t.at), Quarters: t.quarters, Beat: t.counts})
			}
			part.Bars = append(part.Bars, heard.Bar{Skipped: s.skipped(at.bar, length), Number: bar.number, Printed: bar.printed,
				Pass: at.pass, Start: s.span(now), Length: s.span(length), Beats: bar.meter.beats, Meter: bar.meter.text})
		}
		if now += length; now > int64(s.grid)*maxWholes {
			return nil, failed(s.in.lineOf(at.bar), "the score lasts more than %d whole notes", maxWholes)
		}
	}
	s.looseEnds()
	part.Attacks = s.attacks()
	return part, nil
}

// bar plays one bar's notes: a note that a tie leads to lengthens the sound
// before it.
func (s *stage) bar(bar *readBar, start int64) {
	s.notes = append(s.notes[:0], bar.notes...)
	slices.SortStableFunc(s.notes, func(a, b readNote) int { return cmp.Compare(a.at, b.at) })
	for _, n := range s.notes {
		n.at += start
		if n.tied {
			if i, ok := s.take(n); ok {
				s.sounds[i].length += n.length
				s.keep(i, n.ties)
				continue
			}
			s.looseTie("ends", n.at, bar.number, "bar "+bar.number+": a tie ends on "+n.tone.String()+" but begins nowhere")
		}
		s.sounds = append(s.sounds, ringing{readNote: n, bar: bar.number})
		s.keep(len(s.sounds)-1, n.ties)
	}
}

// keep remembers a sound whose tie must be found again at its end.
func (s *stage) keep(i int, ties bool) {
	s.sounds[i].open = ties
	if ties {
		key := tieKey{s.tieTone(s.sounds[i].tone), s.sounds[i].at + s.sounds[i].length}
		s.open[key] = append(s.open[key], i)
	}
}

// take finds the sound that a tied note goes on from: that of its own voice if
// there is one, else of any.
func (s *stage) take(n readNote) (i int, ok bool) {
	key := tieKey{s.tieTone(n.tone), n.at}
	waiting := s.open[key]
	if len(waiting) == 0 {
		return 0, false
	}
	at := max(0, slices.IndexFunc(waiting[:min(len(waiting), 16)], func(i int) bool { return s.sounds[i].voice == n.voice }))
	i = waiting[at]
	if waiting = slices.Delete(waiting, at, at+1); len(waiting) == 0 {
		delete(s.open, key)
	} else {
		s.open[key] = waiting
	}
	return i, true
}

// tieTone drops what a tie may change: the spelling of a pitch.
func (s *stage) tieTone(t heard.Tone) heard.Tone {
	if key, ok := t.Key(); ok && t.Step != 0 && key >= 0 && key < 255 {
		return heard.Tone{MIDI: uint8(key + 1)}
	}
	return t
}

// looseTie remarks on a tie that begins, or ends, but has no other end at a moment.
func (s *stage) looseTie(has string, at int64, bar, text string) {
	s.in.addRemark(heard.Remark{Kind: heard.Loose, Part: s.part.name, Bar: bar, Text: text, Of: has, Count: 1, At: s.span(at)})
}

func (s *stage) looseEnds() {
	for _, sound := range s.sounds {
		if sound.open {
			s.looseTie("begins", sound.at+sound.length, sound.bar, "a tie begins on "+sound.tone.String()+" of bar "+sound.bar+" but ends nowhere")
		}
	}
}

// checkFull remarks on a bar that does not fill the meter, and on a voice that
// ends before its bar does: others write no rests there.
func (s *stage) checkFull(bar *readBar, length int64) {
	is := func(ticks int64) string { return s.span(ticks).String() }
	if bar.fill != length {
		holds := is(bar.fill) + ", it should be " + is(length)
		s.remark(heard.Misfit, holds, bar.number, "bar "+bar.number+" holds "+holds)
		return
	}
	for _, v := range bar.ends {
		if v.at != length {
			s.remark(heard.Short, v.voice, bar.number,
				"voice "+v.voice+" holds "+is(v.at)+" of bar "+bar.number+", which lasts "+is(length)+"; silence is taken to follow")
		}
	}
}

func (s *stage) remark(kind heard.RemarkKind, of, bar, text string) {
	s.in.addRemark(heard.Remark{Kind: kind, Part: s.part.name, Bar: bar, Text: text, Of: of, Count: 1})
}

// span is a number of ticks as part of a whole note.
func (s *stage) span(ticks int64) beat.Span { return s.grid.Span(beat.Time(ticks)) }

func (s *stage) marks(bar *readBar, start int64) {
	for _, m := range bar.marks {
		if len(s.out.Marks) < maxNotes {
			s.out.Marks = append(s.out.Marks, heard.Mark{At: s.span(start + m.at), Text: m.text})
		}
	}
}

// attacks joins tones that begin and end together in one voice.
func (s *stage) attacks() []heard.Attack {
	slices.SortStableFunc(s.sounds, func(a, b ringing) int {
		return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.staff, b.staff), cmp.Compare(a.voice, b.voice), cmp.Compare(b.length, a.length))
	})
	attacks := make([]heard.Attack, 0, len(s.sounds))
	tones := make([]heard.Tone, 0, len(s.sounds)) // one list, of which each attack has a stretch
	for i, n := range s.sounds {
		tones = append(tones, n.tone)
		if i > 0 {
			if p := s.sounds[i-1]; p.at == n.at && p.voice == n.voice && p.staff == n.staff && p.length == n.length && p.on == n.on {
				last := &attacks[len(attacks)-1]
				last.Tones = tones[len(tones)-1-len(last.Tones) : len(tones) : len(tones)]
				last.Accent = last.Accent || n.accent
				continue
			}
		}
		attacks = append(attacks, heard.Attack{
			Onset: s.span(n.at), Length: s.span(n.length),
			Tones: tones[len(tones)-1 : len(tones) : len(tones)], Voice: n.voice, Accent: n.accent, Slash: n.slash, Beat: n.beat, On: n.on,
		})
	}
	for _, a := range attacks {
		slices.SortStableFunc(a.Tones, func(s, t heard.Tone) int {
			low, _ := s.Key()
			high, _ := t.Key()
			return cmp.Compare(low, high)
		})
	}
	return attacks
}
