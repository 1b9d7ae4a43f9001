package midi

import (
	"bufio"
	"fmt"
	"io"

	"tieover/layout/play"
	"tieover/score"
	"tieover/score/beat"
)

// MostAttacks is how many attacks a file may hold: a track is in memory, in the
// bytes of the file, before it is written.
const MostAttacks = 2_000_000

// Options are what may be added to the music.
type Options struct {
	Click   bool // a track that clicks the beats
	CountIn int  // bars of clicks before the music, 0 to 16
}

// MostCountIn is the longest count-in, in bars.
const MostCountIn = 16

// Unfit reports that a piece needs what a Standard MIDI File cannot hold.
type Unfit struct{ Reason string }

func (e Unfit) Error() string { return "section.mid: " + e.Reason }

func unfit(format string, args ...any) error { return Unfit{fmt.Sprintf(format, args...)} }

// Fits reports as Unfit what a file cannot hold of a piece, nil if it holds all.
// A count-in out of range is another error.
func Fits(p *score.Piece, o Options) error {
	if o.CountIn < 0 || o.CountIn > MostCountIn {
		return fmt.Errorf("a count-in of %d bars; it may have 0 to %d", o.CountIn, MostCountIn)
	}
	f := play.Of(p, o.CountIn)
	if f.CountUpTo(MostAttacks) > MostAttacks {
		return unfit("it would hold more than %d attacks; give a shorter `length`, or leave midi out with --only", MostAttacks)
	}
	scale, _, err := resolution(f.Grid)
	if err == nil {
		_, err = conductor(f, scale)
	}
	return err
}

// Write writes the file. Every onset and every end of a sound is exact. It
// fails with Unfit before anything is written.
func Write(w io.Writer, p *score.Piece, o Options) error {
	if err := Fits(p, o); err != nil {
		return err
	}
	return write(w, play.Of(p, o.CountIn), o)
}

func write(w io.Writer, f *play.Performance, o Options) error {
	scale, division, err := resolution(f.Grid)
	if err != nil {
		return err
	}
	t, err := conductor(f, scale)
	if err != nil {
		return err
	}
	places := channels(f)
	ports := portsOf(places)
	clicks := o.Click || o.CountIn > 0
	tracks := 1 + len(f.Voices)
	if clicks {
		tracks++
	}
	out := bufio.NewWriter(w)
	writeHeader(out, tracks, division)
	t.writeTo(out)
	for i := range f.Voices {
		t.begin(f.Voices[i].Name, places[i].port, ports)
		t.voice(&f.Voices[i], places[i], f.Length)
		t.writeTo(out)
	}
	if clicks {
		t.begin("Click", 0, ports)
		t.clicks(f, o.Click)
		t.writeTo(out)
	}
	return out.Flush()
}

// comfortable is the least division to write: readers that keep time by ticks
// run unevenly on very coarse files. Common practice.
const comfortable = 480

// resolution returns how many file ticks one tick of the grid is, and the file
// ticks of a quarter, so that every moment of the grid is whole.
func resolution(g beat.Grid) (scale int64, division uint16, err error) {
	quarter := int64(g) / 4
	if quarter > play.MostTicks {
		return 0, 0, unfit("a quarter would need %d ticks, and a MIDI file holds %d: "+
			"use pulses with fewer different ratios, or take staccato away", quarter, play.MostTicks)
	}
	scale = max(1, (comfortable+quarter-1)/quarter)
	return scale, uint16(quarter * scale), nil
}
