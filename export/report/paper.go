package report

import (
	"bufio"
	"io"
	"strings"

	"github.com/rivo/uniseg"

	"tieover/export/chart/terminal"
)

// width is how many columns a report has.
const width = 80

// paper sets text in 80 columns. The writer below keeps the first error.
type paper struct {
	out     *bufio.Writer
	blank   bool // a blank line is wanted before the next text
	started bool
}

func newPaper(w io.Writer) *paper { return &paper{out: bufio.NewWriterSize(w, 1<<16)} }

// leastRoom is how many columns a line has at least.
const leastRoom = 8

// gap asks for one blank line before whatever comes next.
func (p *paper) gap() { p.blank = p.started }

// heading sets a heading with a blank line before it.
func (p *paper) heading(text string) {
	p.gap()
	p.line(strings.ToUpper(text))
}

func (p *paper) line(text string) {
	if p.blank {
		p.out.WriteByte('\n')
	}
	p.blank, p.started = false, true
	p.out.WriteString(strings.TrimRight(text, " "))
	p.out.WriteByte('\n')
}

// para sets a paragraph, its first line after first blanks, the others after
// rest blanks. A word longer than a line is broken.
func (p *paper) para(first, rest int, text string) {
	p.hang(strings.Repeat(" ", first), rest, text)
}

// hang sets a paragraph that begins right after the prefix. A no-break space
// keeps words together and is written as a space.
func (p *paper) hang(prefix string, rest int, text string) {
	rest = min(rest, width-leastRoom)
	line, used, fresh := prefix, terminal.Width(prefix), true
	next := func() {
		p.line(line)
		line, used, fresh = strings.Repeat(" ", rest), rest, true
	}
	for _, word := range strings.FieldsFunc(text, func(c rune) bool { return c == ' ' }) {
		word = strings.ReplaceAll(word, "\u00a0", " ")
		w := terminal.Width(word)
		for w > width-rest { // wider than a line: it has to be broken
			head, tail := breakAt(word, width-rest)
			if !fresh || used+terminal.Width(head) > width {
				next()
			}
			line += head
			next()
			word, w = tail, terminal.Width(tail)
		}
		if !fresh && used+1+w > width {
			next()
		}
		if !fresh {
			line, used = line+" ", used+1
		}
		line, used, fresh = line+word, used+w, false
	}
	p.line(line)
}

// breakAt breaks a word after so many columns at most: after the last comma, as in
// long numbers, else where the line is full.
func breakAt(word string, most int) (head, tail string) {
	used, end, comma := 0, 0, 0
	for g := uniseg.NewGraphemes(word); g.Next(); {
		if used+g.Width() > most && end > 0 {
			break
		}
		used += g.Width()
		_, end = g.Positions()
		if g.Str() == "," {
			comma = end
		}
	}
	if comma > 0 {
		end = comma
	}
	return word[:end], word[end:]
}

// item sets a paragraph as an item of a list.
func (p *paper) item(text string) { p.para(2, 4, text) }

// table sets rows under their heads; columns are as wide as their widest cell,
// but the last one is wrapped where the line is full. A head that ends in > is
// set flush right with its column.
func (p *paper) table(heads []string, rows [][]string) {
	widths := make([]int, len(heads))
	right := make([]bool, len(heads))
	for i, h := range heads {
		heads[i] = strings.TrimSuffix(h, ">")
		right[i] = heads[i] != h
		widths[i] = terminal.Width(heads[i])
	}
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], terminal.Width(cell))
		}
	}
	last := len(heads) - 1
	for _, row := range append([][]string{heads}, rows...) {
		line, used := "  ", 2
		for i, cell := range row[:last] {
			pad := strings.Repeat(" ", widths[i]-terminal.Width(cell))
			if right[i] {
				line += pad + cell + "  "
			} else {
				line += cell + pad + "  "
			}
			used += widths[i] + 2
		}
		if right[last] {
			line += strings.Repeat(" ", widths[last]-terminal.Width(row[last]))
		}
		if used > width-leastRoom && row[last] != "" { // no room left beside the others
			p.line(line)
			line, used = strings.Repeat(" ", leastRoom), leastRoom
		}
		p.hang(line, used, row[last])
	}
}
