package play

import (
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/instrument"
)

func (f *Performance) voices() {
	index := map[string]int{}
	for i, s := range f.piece.Sections {
		for j, l := range s.Layers {
			k, known := index[l.Name]
			if !known {
				k = len(f.Voices)
				index[l.Name] = k
				v := Voice{Name: l.Name, perf: f}
				for range f.piece.Sections {
					v.layers = append(v.layers, -1)
				}
				f.Voices = append(f.Voices, v)
			}
			f.Voices[k].layers[i] = j
		}
	}
	bare := 0
	for k := range f.Voices {
		v := &f.Voices[k]
		v.bare = bareKeys[bare%len(bareKeys)]
		if v.set(panOf(k, len(f.Voices))) {
			bare++
		}
	}
}

// set fills the settings and reports whether the voice is ever a bare rhythm. The
// pan of one layer holds until another layer gives one.
func (v *Voice) set(pan int) (bare bool) {
	for _, pass := range v.perf.Passes {
		l := v.layer(pass.Section)
		if l == nil {
			continue
		}
		if l.Pan != nil {
			pan = *l.Pan
		}
		now := Setting{At: pass.Begins(), Pan: pan, Manner: mannerOf(l.Instrument)}
		bare = bare || l.Instrument.Family == instrument.Bare
		if now.Manner != Drums {
			now.Program = l.Instrument.Program
		}
		v.setting(now)
		if now.Manner != Drums {
			v.techniques(now, pass, l)
		}
	}
	return bare
}

// setting adds what holds from a moment on, if it is new.
func (v *Voice) setting(now Setting) {
	n := len(v.Settings)
	if n == 0 {
		now.At = 0
	} else if last := v.Settings[n-1]; last.Program == now.Program && last.Manner == now.Manner && last.Pan == now.Pan {
		return
	} else if last.At == now.At {
		v.Settings = v.Settings[:n-1]
	}
	v.Settings = append(v.Settings, now)
}

// techniques adds the settings that a layer's techniques make in a pass after the one
// that it begins with.
func (v *Voice) techniques(begins Setting, pass Pass, l *score.Layer) {
	var in ways
	for _, t := range v.perf.piece.Sections[pass.Section].Techniques(l) {
		in.take(t)
		now := begins
		now.At = v.perf.since(pass, t.Time)
		now.Program, _ = in.sound(l.Instrument)
		if t := in[instrument.Bowing]; t != nil && !t.Usual {
			now.Manner = Plucked
		}
		v.setting(now)
	}
}

// ways are the techniques in force, by matter.
type ways [instrument.Matters]*instrument.Technique

func (w *ways) take(t score.TechniqueAt) { w[t.Matter] = t.Technique }

// sound returns the program that the instrument plays with, and how much softer. Of
// several techniques the first with a program of its own gives it.
func (w *ways) sound(i *instrument.Instrument) (program, softer int) {
	program = i.Program
	for _, t := range w {
		if t == nil {
			continue
		}
		p, s := i.Played(t)
		if program == i.Program {
			program = p
		}
		softer += s
	}
	return program, softer
}

// panOf returns the pan of voice k of n: evenly from left to right, two at 45
// degrees, more of them wider, so that each is heard from its own place.
func panOf(k, n int) int {
	if n == 1 {
		return 0
	}
	width := min(70, 30+15*(n-1))
	return -width + 2*width*k/(n-1)
}

// layer returns the voice's layer in a section, nil if it has none there.
func (v *Voice) layer(section int) *score.Layer {
	if j := v.layers[section]; j >= 0 {
		return v.perf.piece.Sections[section].Layers[j]
	}
	return nil
}

// Layer returns the index of the voice's layer in a section, -1 if it has none.
func (v *Voice) Layer(section int) int { return v.layers[section] }

// Events walks what a voice sounds in time order: its attacks, the strokes that
// fill rolls, and grace notes. An event is held back until it is known what leads
// in to the next.
func (v *Voice) Events() iter.Seq[*Event] {
	return func(yield func(*Event) bool) {
		held, next := &sounding{}, &sounding{}
		for i, pass := range v.perf.Passes {
			l := v.layer(pass.Section)
			if l == nil {
				continue
			}
			s := v.perf.piece.Sections[pass.Section]
			loud, played := loudness(s, l), s.Techniques(l)
			var in ways
			for at, a := range s.Attacks(v.layers[pass.Section]) {
				sounds, ok := v.perf.at(pass, at)
				if !ok {
					continue
				}
				v.fill(next, l, a)
				next.At, next.Pass, next.Pickup = sounds, i, at < 0
				for len(played) > 0 && played[0].Time <= at {
					in.take(played[0])
					played = played[1:]
				}
				_, softer := in.sound(l.Instrument)
				next.Velocity, next.soft = score.Audible(loud.velocity(at, a)-softer), score.Audible(loud.velocity(at, &score.Attack{})-softer)
				if !v.perf.follow(held, next, yield) {
					return
				}
				held, next = next, held
			}
		}
		if held.begun {
			v.perf.strokes(&held.Event, held.touch, yield)
		}
	}
}

// sounding is an attack with what leads in to it.
type sounding struct {
	Event
	begun  bool
	touch  score.Touch
	graces [][]int // keys
	soft   int     // their velocity: that of the attack without its touch
}

// fill sets what an event takes from its attack alone.
func (v *Voice) fill(e *sounding, l *score.Layer, a *score.Attack) {
	e.Length = v.perf.fine * a.Length
	if a.Touch.Has(score.Staccato) {
		e.Length /= 2
	}
	e.begun, e.touch = true, a.Touch
	e.Keys, e.Drums = v.keys(e.Keys[:0], l, a.Tones)
	e.graces = e.graces[:0]
	for _, chord := range a.Graces {
		keys, _ := v.keys(nil, l, chord)
		e.graces = append(e.graces, keys)
	}
}

// keys appends the keys of a chord, each once.
func (v *Voice) keys(keys []int, l *score.Layer, tones score.Chord) (all []int, drums bool) {
	for _, tone := range tones {
		key, drum := v.key(l, tone)
		drums = drums || drum
		if !slices.Contains(keys, key) { // F#4+Gb4 is one key
			keys = append(keys, key)
		}
	}
	return keys, drums
}

func (v *Voice) key(l *score.Layer, tone score.Tone) (key int, drum bool) {
	switch {
	case tone.IsPitched():
		return tone.Key(), false
	case l.Instrument.Family == instrument.Bare:
		return v.bare, true
	}
	return l.Instrument.Drums[max(0, int(tone.Drum)-1)].Key, true // a bare tone is the first sound
}
