package found

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/heard"
)

// Selection is what is read of a score; the zero value is all of each part, its voices as
// one line.
type Selection struct {
	Voice    string // only this voice
	Divide   bool   // each voice of a part is a line
	From, To int    // bars by their numbers; 0: open
}

// Read makes lines of parts of a score, and takes title and tempo from it. wrong has an
// error for each part or voice that cannot be a line.
func (s Selection) Read(score *heard.Score, parts []*heard.Part) (m Music, wrong []error) {
	m.Plan.Title = cmp.Or(Tidy(score.Title), "Found")
	for _, r := range heard.Summary(score.Remarks) {
		m.note("%s: %s", r.Part, r.Text)
	}
	for _, p := range score.Parts {
		if m.Plan.Tempo == "" && p.Quarters().Sign() > 0 {
			m.setTempo(p.Tempos)
		}
	}
	names, taken, notes := PartNames(parts)
	m.Notes = append(m.Notes, notes...)
	for _, part := range parts {
		from, to, err := s.stretch(part)
		if err != nil {
			wrong = append(wrong, fmt.Errorf("%s: %w", names[part], err))
			continue
		}
		played, slashes := dropBeats(part, from, to)
		switch {
		case slashes == "":
		case !slices.ContainsFunc(played.Attacks, func(a heard.Attack) bool { return a.Onset.Cmp(from) >= 0 && a.Onset.Cmp(to) < 0 }):
			wrong = append(wrong, fmt.Errorf("%s: %s: slashes, which carry no loop, and nothing else", names[part], slashes))
			continue
		default:
			m.note("%s: %s: slashes, which carry no loop; left out", names[part], slashes)
		}
		for _, v := range s.voices(played, names[part], from, to) {
			if v.name != names[part] {
				v.name = taken.Own(v.name)
			}
			list, err := v.list(part, from, to)
			if err != nil {
				wrong = append(wrong, fmt.Errorf("%s: %w", v.name, err))
				continue
			}
			if list.Joined {
				m.note("%s: sounds that overlap are taken to end where the next begins%s", v.name, v.otherVoices())
			}
			if list.early != "" {
				m.note("%s: all notes are let go %s; taken as if held to their end", v.name, list.early)
			}
			m.Lines = append(m.Lines, Line{Name: v.name, Player: v.player, Part: part, On: v.on, From: from, To: to, List: list.List, Ranked: list.ranked})
		}
	}
	return m, wrong
}

func (m *Music) note(format string, args ...any) {
	m.Notes = append(m.Notes, fmt.Sprintf(format, args...))
}

// TakeMeters takes the meters of the first line's bars into the plan, or adds a note when a
// spec cannot have them.
func (m *Music) TakeMeters() {
	bars := m.Lines[0].partBars()
	meters, err := Meters(bars)
	switch {
	case err != nil:
		m.note("the bars are not taken over: %v", err)
	case len(meters) > 0:
		m.Plan.Meter, m.Plan.Changes = meters[0].Meter, meters[1:]
		if len(bars) > 1 && bars[0].Skipped.Sign() > 0 && bars[0].Meter == bars[1].Meter && bars[1].Length == bars[0].Skipped.Add(bars[0].Length) {
			m.Plan.Pickup = bars[0].Length
		}
		if len(m.Plan.Changes) == 0 && !strings.HasPrefix(m.Plan.Meter, "[") {
			m.Plan.Bar = bars[0].Length
		}
	}
}

// setTempo takes the first tempo with the three decimals that a spec may have, in the note
// value that its mark counts, and adds a note when that is not all.
func (m *Music) setTempo(tempos []heard.Tempo) {
	first := tempos[0]
	if slices.ContainsFunc(tempos, func(t heard.Tempo) bool { return t.Quarters != first.Quarters }) {
		m.note("the tempo changes; only the first is taken over")
	}
	rate, value := first.Quarters, ""
	if name, ok := beat.NoteName(first.Beat, beat.American); ok && first.Beat != beat.Of(1, 4) {
		rate, value = first.Quarters.Over(first.Beat.Times(4)), name+" = "
	}
	m.Plan.Tempo = value + rate.Rounded(3)
	if _, whole := rate.Times(1000).IsWhole(); !whole {
		m.note("the tempo %s is written as %s", rate.Rounded(6), m.Plan.Tempo)
	}
}

// voice is the attacks of one line of a part.
type voice struct {
	name    string
	player  string
	on      *heard.Instrument // which of several that the player has; else nil
	attacks []heard.Attack
	tick    beat.Span // of a MIDI file's part; else zero
	written *reading  // the attacks as they are written; nil until they are read
}

// otherVoices says how to take the line's voices one by one; "" where it has only one.
func (v voice) otherVoices() string {
	var names []string
	for _, a := range v.attacks {
		if name := Tidy(a.Voice); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) < 2 {
		return ""
	}
	return "; it has voices " + beat.Listed(names, "and") + ": choose one with --voice, or take --all"
}

// voices returns the lines of a part: the voice that is asked for, each voice, or all as
// one; instruments and drums with loops of their own are split.
func (s Selection) voices(part *heard.Part, name string, from, to beat.Span) []voice {
	var all []voice
	at := map[string]int{}
	for _, a := range part.Attacks {
		i, known := at[a.Voice]
		if !known {
			i = len(all)
			at[a.Voice] = i
			all = append(all, voice{name: name + ", voice " + Tidy(a.Voice), player: name})
		}
		all[i].attacks = append(all[i].attacks, a)
	}
	switch i, ok := at[s.Voice]; {
	case s.Voice != "" && ok:
		all = all[i : i+1]
	case s.Voice != "":
		return []voice{{name: name + ", voice " + s.Voice}}
	case !s.Divide || len(all) < 2:
		all = []voice{{name: name, attacks: part.Attacks}}
	}
	var lines []voice
	for _, v := range all {
		v.tick = part.Tick
		for _, one := range v.splitInstruments(part) {
			lines = append(lines, one.splitSounds(from, to)...)
		}
	}
	split := slices.ContainsFunc(lines, func(line voice) bool { return line.on != nil })
	if split && !oneAtATime(lines, part) { // as where bars of another layer hold two of the player's
		for i := range lines {
			lines[i].player = ""
		}
	}
	return lines
}

// stretch returns the moments between which the part is read.
func (s Selection) stretch(part *heard.Part) (from, to beat.Span, err error) {
	to = part.End()
	if s.From == 0 && s.To == 0 {
		return from, to, nil
	}
	found := false
	for _, bar := range part.Bars {
		n, convErr := strconv.Atoi(bar.Number)
		if convErr != nil || n < s.From || s.To > 0 && n > s.To {
			continue
		}
		if !found {
			from, found = bar.Start, true
		}
		to = bar.Start.Add(bar.Length)
	}
	if !found {
		return from, to, fmt.Errorf("it has no bars %s", s.bars())
	}
	return from, to, nil
}

// bars says the bars that are asked for.
func (s Selection) bars() string {
	switch {
	case s.From == s.To:
		return strconv.Itoa(s.From)
	case s.To == 0:
		return fmt.Sprintf("%d-", s.From)
	case s.From == 0:
		return fmt.Sprintf("-%d", s.To)
	}
	return fmt.Sprintf("%d-%d", s.From, s.To)
}
