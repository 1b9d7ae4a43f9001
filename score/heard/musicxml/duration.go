package musicxml

import (
	"slices"

	"tieover/score/beat"
	"tieover/score/heard"
)

func (b *barReading) backup(e *element) error {
	back, err := b.duration(e)
	if err != nil {
		return err
	}
	if b.now -= back; b.now < 0 {
		b.remark(heard.Misfit, "bar %s: a backup goes back past the barline", b.bar.number)
		b.now = 0
	}
	b.begun = false
	return nil
}

func (b *barReading) forward(e *element) error {
	skip, err := b.duration(e)
	if err != nil {
		return err
	}
	b.now += skip
	b.begun = false
	b.reach(e.kidText("voice"), b.now)
	return nil
}

// reach notes that a voice has come as far as a moment of the bar.
func (b *barReading) reach(voice string, at int64) {
	b.bar.fill = max(b.bar.fill, at)
	if voice == "" {
		return
	}
	i := slices.IndexFunc(b.bar.ends, func(v voiceEnd) bool { return v.voice == voice })
	if i < 0 {
		if len(b.bar.ends) < 64 { // more voices than a bar can hold are not followed one by one
			b.bar.ends = append(b.bar.ends, voiceEnd{voice, at})
		}
		return
	}
	b.bar.ends[i].at = max(b.bar.ends[i].at, at)
}

// duration returns the <duration> of an element in ticks.
func (b *barReading) duration(e *element) (int64, error) {
	d := e.kid("duration")
	if d == nil {
		return 0, failed(e.line, "a <%s> has no duration", e.name)
	}
	top, bottom, ok := decimal(d.text)
	if !ok || top < 0 {
		return 0, failed(d.line, "the duration %q is not a number from 0 to 999999999", d.text)
	}
	ticks, err := b.ticks(top, bottom, d.line)
	if err == nil && b.now+ticks > b.bar.grid*maxBarSpan {
		err = failed(d.line, "a bar lasts more than %d whole notes", maxBarSpan)
	}
	return ticks, err
}

// ticks turns top/bottom divisions into ticks, on a finer grid if it must.
func (b *barReading) ticks(top, bottom int64, line int) (int64, error) {
	state := &b.part.state
	if state.divTop == 0 {
		return 0, failed(line, "a duration comes before the <divisions> that it counts")
	}
	length := beat.Of(top, 4*bottom).Mul(beat.Of(state.divBottom, state.divTop))
	finer, ok := beat.LCM(b.bar.grid, length.Den())
	if !ok || finer > maxGrid {
		return 0, failed(line, "the durations of the file have no common measure; 1/%d of a whole note cannot be joined to what came before", length.Den())
	}
	if finer != b.bar.grid {
		b.rescale(finer)
	}
	return length.Num() * (finer / length.Den()), nil
}

// rescale moves the bar, and all that follow, to a finer grid.
func (b *barReading) rescale(finer int64) {
	by := finer / b.bar.grid
	b.grid, b.now, b.last = finer, b.now*by, b.last*by
	b.bar.rescale(finer)
}

// rescale moves the bar to a grid that is as fine as its own, or finer.
func (b *readBar) rescale(finer int64) {
	by := finer / b.grid
	if by == 1 {
		return
	}
	b.grid, b.fill = finer, b.fill*by
	for i := range b.notes {
		b.notes[i].at *= by
		b.notes[i].length *= by
	}
	for i := range b.ends {
		b.ends[i].at *= by
	}
	for i := range b.marks {
		b.marks[i].at *= by
	}
	for i := range b.tempos {
		b.tempos[i].at *= by
	}
}
