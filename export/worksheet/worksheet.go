package worksheet

import (
	"fmt"
	"io"
	"strings"

	"tieover/export/chart"
	"tieover/export/chart/terminal"
	"tieover/export/musicxml"
	"tieover/layout/sheet"
	"tieover/layout/task"
	"tieover/score"
	"tieover/templates"
)

// Options say what is made and how it is set.
type Options struct {
	Task  task.Options
	Width int    // columns of the text
	ASCII bool   // no byte above 127 in the text
	Words string // text of the template, if File names one
	File  string // where Words came from, for its errors; "": the built-in template
	XML   musicxml.Options
}

// Narrowest is the least width of a worksheet: its blanks and the names of its
// files have room.
const Narrowest = 40

// File is one file of a worksheet.
type File struct {
	Name  string
	Write func(io.Writer) error
}

// Sheet is what the template's blocks "student" and "key" are given. All lines
// keep the width.
type Sheet struct {
	Title     string
	Heading   []string // the title in lines, and a rule under it
	Intro     []string // room for the student's name and the date, or level and seed of the key
	Level     int
	Seed      uint64
	Exercises []Exercise
}

// Exercise is one task in the template's data. Rows, Music and Notation are the
// student's in "student" and the solution's in "key".
type Exercise struct {
	Number   int
	Kind     string // "composite", "realign", "groups", "next", "beam", "cut"
	Title    string
	Prompt   []string
	Rows     []string
	Blanks   []string
	Answer   []string
	Music    string   // name of the MusicXML file, "" when there is none
	Notation []string // says where the music is; empty when there is none
}

// Make makes all files of a worksheet: worksheet.html, worksheet.txt, answers.txt
// and, for each exercise that can be written in notation, two MusicXML files. left lists the
// kinds that the piece does not allow. It fails when the template does.
func Make(p *score.Piece, o Options) (files []File, left []task.Left, err error) {
	name, words := "worksheet.tmpl", templates.Worksheet
	if o.File != "" {
		name, words = o.File, o.Words
	}
	frame, err := templates.Parse(name, words, templates.Block{Name: "student", Given: &Sheet{}}, templates.Block{Name: "key", Given: &Sheet{}})
	if err != nil {
		return nil, nil, err
	}
	made, left := task.Make(p, o.Task)
	if len(made) == 0 {
		return nil, left, nil
	}
	student := newSheet(p, o, "Name: "+strings.Repeat("_", 30), "Date: "+strings.Repeat("_", 14))
	key := newSheet(p, o, "Answer key", fmt.Sprintf("level %d", o.Task.Level), fmt.Sprintf("seed %d", o.Task.Seed))
	for i, e := range made {
		for _, side := range []struct {
			sheet *Sheet
			view  *task.View
			name  string
		}{{student, &e.Given, "worksheet"}, {key, &e.Solution, "answers"}} {
			x, err := exercise(i+1, &e, side.view, o)
			if err != nil {
				return nil, nil, err
			}
			if side.view.Sheet != nil {
				x.Music = fmt.Sprintf("%s-%d-%s.musicxml", side.name, i+1, e.Kind)
				x.Notation = wrapItems([]string{"(notation: " + x.Music + ")"}, "", o)
				files = append(files, notation(x.Music, withSubtitle(side.view.Sheet, i+1, e.Title), o.XML))
			}
			side.sheet.Exercises = append(side.sheet.Exercises, x)
		}
	}
	printable, err := page(p, made, o)
	if err != nil {
		return nil, nil, err
	}
	files = append([]File{printable}, files...)
	for _, text := range []struct {
		name, block string
		sheet       *Sheet
	}{{"answers.txt", "key", key}, {"worksheet.txt", "student", student}} {
		var made strings.Builder
		if err := frame.Run(&made, text.block, text.sheet); err != nil {
			return nil, nil, err
		}
		out := made.String()
		if o.ASCII { // the template's own words too
			out = terminal.Spell(out, true)
		}
		files = append([]File{{text.name, func(w io.Writer) error {
			_, err := io.WriteString(w, out)
			return err
		}}}, files...)
	}
	return files, left, nil
}

func newSheet(p *score.Piece, o Options, intro ...string) *Sheet {
	title := terminal.Spell(p.Title, o.ASCII)
	heading := terminal.Wrap([]string{title}, "", o.Width)
	rule := 0
	for _, line := range heading {
		rule = max(rule, terminal.Width(line))
	}
	return &Sheet{Title: title, Heading: append(heading, strings.Repeat("=", rule)),
		Intro: terminal.Wrap(intro, indent, o.Width), Level: o.Task.Level, Seed: o.Task.Seed}
}

// withSubtitle names the task in the notation's title.
func withSubtitle(s *sheet.Sheet, number int, title string) *sheet.Sheet {
	c := *s
	c.Subtitle = fmt.Sprintf("%d. %s", number, title)
	return &c
}

func notation(name string, laid *sheet.Sheet, o musicxml.Options) File {
	return File{name, func(w io.Writer) error { return musicxml.Write(w, laid, o) }}
}

// exercise sets one side of an exercise as text.
func exercise(number int, e *task.Exercise, v *task.View, o Options) (Exercise, error) {
	x := Exercise{Number: number, Kind: string(e.Kind), Title: e.Title, Rows: rows(v, o),
		Prompt: wrapItems(strings.Fields(e.Prompt), " ", o)}
	for _, line := range e.Blanks {
		x.Blanks = append(x.Blanks, wrapItems([]string{line}, "", o)...)
	}
	for _, line := range e.Answer {
		x.Answer = append(x.Answer, wrapItems([]string{line}, "", o)...)
	}
	if v.Piece == nil {
		return x, nil
	}
	text, err := chartOf(v, o.Width, o.ASCII)
	x.Rows = append(x.Rows, strings.Split(text, "\n")...)
	return x, err
}

// chartOf is the chart of a view in so many columns, without a line end.
func chartOf(v *task.View, columns int, ascii bool) (string, error) {
	o := chart.Default()
	o.Width, o.ASCII, o.Hide, o.From, o.To = columns, ascii, v.Hide, v.From, v.To
	var text strings.Builder
	err := chart.Write(&text, v.Piece, o)
	return strings.TrimRight(text.String(), "\n"), err
}

// wrapItems sets items on lines that have room behind the template's indent.
func wrapItems(items []string, gap string, o Options) []string {
	var spelt []string
	for _, item := range items {
		spelt = append(spelt, terminal.Spell(item, o.ASCII))
	}
	return terminal.Wrap(spelt, gap, o.Width-len(indent))
}
