package worksheet

import (
	"strings"

	"tieover/export/chart/terminal"
	"tieover/layout/task"
)

// indent comes before whatever belongs to an exercise and is no chart.
const indent = "   "

// rows sets the legend and the rows of signs of a view.
func rows(v *task.View, o Options) []string {
	lines := wrapItems(v.Legend, indent, o)
	head := 0
	for _, r := range v.Rows {
		if r.Head != "" {
			head = max(head, len(r.Head)+2)
		}
	}
	for _, r := range v.Rows {
		lines = append(lines, row(r, head, o.Width-len(indent)-head)...)
	}
	for i, line := range lines {
		lines[i] = strings.TrimRight(indent+line, " ")
	}
	return lines
}

// row sets one row of signs in so many columns behind its head: the signs, then
// what is set after them, on the last line if there is room.
func row(r task.Row, head, room int) []string {
	var lines []string
	most := (room + 1) / 2
	if r.Head == "" {
		most = prime(min(most, 30))
	}
	for signs := r.Signs; len(signs) > 0; {
		n := min(most, len(signs))
		lines = append(lines, strings.Join(signs[:n], " "))
		signs = signs[n:]
	}
	last := len(lines) - 1
	switch {
	case r.Tail == "":
	case last >= 0 && len(lines[last])+len(indent)+len(r.Tail) <= room:
		lines[last] += indent + r.Tail
	default:
		lines = append(lines, terminal.Wrap([]string{r.Tail}, "", room)...)
	}
	for i, line := range lines {
		lines[i] = strings.Repeat(" ", head) + line
	}
	lines[0] = r.Head + lines[0][len(r.Head):]
	return lines
}

// prime returns the largest prime number up to n, which is at least 2: rows of
// so many pulses end at no barlines but where a bar has just that many.
func prime(n int) int {
	for d := 2; d*d <= n; d++ {
		if n%d == 0 {
			return prime(n - 1)
		}
	}
	return n
}
