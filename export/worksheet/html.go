package worksheet

import (
	"html/template"
	"io"
	"regexp"
	"strconv"
	"strings"

	"tieover/export/engraving"
	"tieover/layout/sheet"
	"tieover/layout/task"
	"tieover/score"
)

// setting is how a chart of the document is set: at the size of its type so many
// columns fill the line.
type setting struct {
	class   string // of the style sheet; "" for a chart that is only read
	columns int
}

// settings of a row to write in, best first: with cells of 7 mm at least; of 5 mm,
// a square of usual graph paper, where that keeps bars whole that would else be
// broken; and as it is read, where pulses are too fine for either.
var settings = []setting{{"wide", 46}, {"squared", 70}, {"", readColumns}}

// readColumns are those of a chart that is only read.
const readColumns = 72

// smallest is the percentage of the usual size below which notation is not
// printed: the rows say the same, readably.
const smallest = 60

// document is what the page is made from.
type document struct {
	Title       string
	Level       int
	Seed        uint64
	Style       template.CSS
	Given, Keys []printed
}

// printed is one side of an exercise on paper.
type printed struct {
	Number        int
	Kind          task.Kind
	Title, Prompt string
	Notation      []template.HTML
	Legend        string
	Rows          string   // of signs
	Chart         []string // blocks that are not torn apart: heading and legend, then the systems
	Wide          string   // how a chart with rows to write in is set, "" for others
	Whole         bool     // it is so short that no page parts it
	Blanks        [][]room
	Staves        []template.HTML
}

// room is a piece of a line: words, or a place to write.
type room struct {
	Words string
	Size  string // of the place: "short", "long", "line"; "" for words
}

// page returns worksheet.html: the sheets, then the key on pages of its own. It
// asks for nothing beside itself and runs no script.
func page(p *score.Piece, made []task.Exercise, o Options) (File, error) {
	d := document{Title: p.Title, Level: o.Task.Level, Seed: o.Task.Seed, Style: template.CSS(engraving.Style + style)}
	for i := range made {
		e := &made[i]
		given, err := print(i+1, e, &e.Given, e.Blanks)
		if err != nil {
			return File{}, err
		}
		given.Prompt = e.Prompt
		if e.Staves > 0 {
			given.Blanks = nil
			for range e.Staves {
				given.Staves = append(given.Staves, emptyStaff(e.Solution.Sheet))
			}
		}
		key, err := print(i+1, e, &e.Solution, e.Answer)
		if err != nil {
			return File{}, err
		}
		given.Whole, key.Whole = given.height() <= whole, key.height() <= whole
		d.Given, d.Keys = append(d.Given, given), append(d.Keys, key)
	}
	return File{"worksheet.html", func(w io.Writer) error {
		return template.Must(template.New("worksheet.html").Parse(frame)).Execute(w, d)
	}}, nil
}

func print(number int, e *task.Exercise, v *task.View, lines []string) (printed, error) {
	x := printed{Number: number, Kind: e.Kind, Title: e.Title, Legend: strings.Join(v.Legend, "   "), Notation: figures(v.Sheet)}
	for _, line := range lines {
		x.Blanks = append(x.Blanks, rooms(line))
	}
	o := Options{Width: readColumns}
	if v.Rows != nil {
		bare := *v
		bare.Legend = nil
		x.Rows = strings.Join(rows(&bare, o), "\n")
	}
	if v.Piece == nil {
		return x, nil
	}
	how := settings[len(settings)-1:]
	if e.Kind == task.Composite && v == &e.Given {
		how = settings
	}
	for _, set := range how {
		text, err := chartOf(v, set.columns, false)
		if err != nil {
			return x, err
		}
		x.Chart, x.Wide = strings.Split(text, "\n\n"), set.class
		if isUsable(text) {
			break
		}
	}
	return x, nil
}

// isUsable reports whether a chart has the row to write in, and no bar in pieces.
func isUsable(chart string) bool {
	return strings.Contains(chart, "\ntogether") && !piece.MatchString(chart)
}

var piece = regexp.MustCompile(`(?m)^bar .*\(\d+\)`)

// Heights on paper in millimeters, as the style sheet has them, and what is not parted:
// less than two thirds of a page, so that little paper stays empty for it.
const (
	headed    = 19.0 // a heading and the space around it
	textLine  = 5.9
	rowLine   = 4.7
	wideLine  = 7.7
	blankLine = 11.5
	staff     = 22.0
	whole     = 165.0
)

// height is about how high an exercise is on paper.
func (x *printed) height() float64 {
	lines := func(text string) float64 { return float64(strings.Count(text, "\n") + 1) }
	sum := headed + textLine*float64(1+len(x.Prompt)/90) + blankLine*float64(len(x.Blanks)) + staff*float64(len(x.Staves))
	for _, svg := range x.Notation {
		if m := tall.FindStringSubmatch(string(svg)); m != nil {
			mm, _ := strconv.ParseFloat(m[1], 64) // our own drawing
			sum += mm + 2
		}
	}
	if x.Rows != "" {
		sum += rowLine * (lines(x.Rows) + 1)
	}
	for i, block := range x.Chart {
		line := rowLine
		if x.Wide == "wide" && i > 0 {
			line = wideLine
		}
		sum += line*lines(block) + 3
	}
	return sum
}

var tall = regexp.MustCompile(`height="([0-9.]+)mm"`)

// figures draws a sheet, a system a figure; none where a bar is so long that it
// would be too small to read.
func figures(s *sheet.Sheet) []template.HTML {
	if s == nil {
		return nil
	}
	var list []template.HTML
	for sys := range engraving.Systems(s, engraving.Options{}) {
		if sys.Percent < smallest {
			return nil
		}
		list = append(list, template.HTML(engraving.DefaultPaper.Figure(sys)))
	}
	return list
}

// emptyStaff is a staff to write on, of as many lines as the answer has.
func emptyStaff(s *sheet.Sheet) template.HTML {
	lines := 5
	if s != nil {
		lines = s.Parts[0].Staves[0].Lines
	}
	svg := engraving.DefaultPaper.Figure(engraving.Blank(engraving.Options{}, lines))
	return template.HTML(bars.ReplaceAllString(svg, `aria-label="empty staff"`))
}

var bars = regexp.MustCompile(`aria-label="[^"]*"`)

var underscores = regexp.MustCompile(`_+`)

// rooms splits a line into its words and the places to write in.
func rooms(line string) []room {
	var list []room
	at := 0
	for _, m := range underscores.FindAllStringIndex(line, -1) {
		if m[0] > at {
			list = append(list, room{Words: line[at:m[0]]})
		}
		size := "line"
		switch n := m[1] - m[0]; {
		case n <= 4:
			size = "short"
		case n <= 12:
			size = "long"
		}
		list = append(list, room{Size: size})
		at = m[1]
	}
	if at < len(line) {
		list = append(list, room{Words: line[at:]})
	}
	return list
}

const frame = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<title>{{.Title}}: worksheet</title>
<style>
{{.Style}}</style>
</head>
<body>
<main>
<h1>{{.Title}}</h1>
<p class="who">Name <span class="room long"></span> Date <span class="room short"></span></p>
{{range .Given}}<section aria-labelledby="e{{.Number}}"{{if .Whole}} class="short"{{end}}>
<h2 id="e{{.Number}}">{{.Number}}. {{.Title}}</h2>
<p>{{.Prompt}}</p>
{{template "music" .}}{{if .Staves}}<div class="write">
{{range .Staves}}{{.}}{{end}}</div>
{{end}}{{if .Blanks}}<ul class="blanks">
{{template "lines" .Blanks}}</ul>
{{end}}</section>
{{end}}<section class="key" aria-labelledby="key">
<h2 id="key">Answer key: {{.Title}}</h2>
<p>level {{.Level}}, seed {{.Seed}}</p>
{{range .Keys}}<section aria-labelledby="k{{.Number}}"{{if .Whole}} class="short"{{end}}>
<h3 id="k{{.Number}}">Answer {{.Number}}. {{.Title}}</h3>
<ul class="answers">
{{template "lines" .Blanks}}</ul>
{{template "music" .}}</section>
{{end}}</section>
</main>
</body>
</html>
{{define "lines"}}{{range .}}<li>{{range .}}{{if .Size}}<span class="room {{.Size}}"></span>{{else}}{{.Words}}{{end}}{{end}}</li>
{{end}}{{end}}{{define "music"}}{{if .Notation}}<div class="notation">
{{range .Notation}}{{.}}{{end}}</div>
{{end}}{{if .Legend}}<p>{{.Legend}}</p>
{{end}}{{if .Rows}}<pre tabindex="0">{{.Rows}}</pre>
{{end}}{{$wide := .Wide}}{{range $i, $block := .Chart}}<pre tabindex="0"{{if not $i}} class="about"{{else if $wide}} class="{{$wide}}"{{end}}>{{$block}}</pre>
{{end}}{{end}}`

// style prints black on white, on whichever paper is in the printer: 180 mm are
// between the margins of both usual sizes. Rows keep together by what stands
// around them; each exercise begins where there is room for its first lines.
const style = `:root{color-scheme:light}
body{margin:0 auto;max-width:180mm;padding:0 4mm;background:#fff;color:#000;font:12pt/1.4 serif}
h1{font-size:20pt;margin:6mm 0 2mm}
h2{font-size:15pt;margin:9mm 0 2mm;break-after:avoid}
h3{font-size:13pt;margin:7mm 0 2mm;break-after:avoid}
p{margin:0 0 3mm;break-inside:avoid;break-after:avoid}
pre{font:10.5pt/1.25 monospace;margin:3mm 0;overflow-x:auto;break-inside:avoid}
pre.about{break-after:avoid}
pre.wide{font-size:16pt;line-height:1.35}
pre.squared{font-size:12pt;line-height:1.3}
.room{display:inline-block;border-bottom:1px solid #000;height:9mm;vertical-align:bottom}
.room.short{width:24mm}.long{width:80mm}.line{width:110mm}
ul{list-style:none;margin:3mm 0;padding:0;break-inside:avoid}
li{break-inside:avoid}
.blanks li{min-height:11mm}
.write{margin:5mm 0;break-inside:avoid}
.notation{margin:3mm 0}
svg.music{margin:2mm 0}
.write svg.music{margin:5mm 0}
section.short{break-inside:avoid}
:has(+.blanks),:has(+.write),.answers{break-after:avoid}
@page{margin:15mm}
@media print{body{padding:0;max-width:none}.key{break-before:page}pre{overflow:visible}}
`
